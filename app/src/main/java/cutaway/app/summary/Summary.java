package cutaway.app.summary;

import cutaway.app.report.Chances;
import cutaway.bench.dossier.Solved;
import cutaway.bench.finding.CrossCheck;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Judgement;
import cutaway.bench.finding.NextReading;
import cutaway.bench.finding.NextTest;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.finding.Suspicion;
import cutaway.bench.sheet.Sheet;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** One screen of text: notices first, then findings side by side, checks, claims, what is next. */
public final class Summary {
  private static final int WIDTH = 96;
  private static final List<String> KEY =
      List.of(
          "drive-unit.re",
          "drive-unit.fs",
          "drive-unit.qms",
          "drive-unit.qes",
          "drive-unit.qts",
          "drive-unit.mms",
          "drive-unit.cms",
          "drive-unit.bl",
          "drive-unit.sd",
          "drive-unit.vas",
          "drive-unit.l-1k",
          "drive-unit.sensitivity-voltage");

  private final Paint paint;
  private final StringBuilder out = new StringBuilder();

  private Summary(Paint paint) {
    this.paint = paint;
  }

  /** The screen, with colour where the paint has any. */
  public static String of(Sheet sheet, Solved solved, Paint paint) {
    Summary s = new Summary(paint);
    s.write(sheet, solved);
    return s.out.toString();
  }

  private void write(Sheet sheet, Solved solved) {
    Findings f = solved.findings();
    String kind = sheet.unit().kind().isEmpty() ? "" : ", " + sheet.unit().kind();
    out.append(paint.strong(sheet.unit().name() + kind)).append("\n");
    f.notices().forEach(this::notice);
    columns(f);
    air(f);
    walls(f);
    f.suspicion().ifPresent(this::noise);
    for (CrossCheck c : f.crossChecks()) {
      crossCheck(c);
    }
    if (!f.judgements().isEmpty()) {
      heading("Claims");
      f.judgements().forEach(this::judgement);
    }
    if (!f.nextReadings().isEmpty()) {
      heading("Would tell more");
      f.nextReadings().stream().limit(2).forEach(this::next);
    }
  }

  private void heading(String text) {
    out.append('\n').append(paint.strong(text)).append('\n');
  }

  private void notice(Notice n) {
    String mark =
        switch (n.severity()) {
          case FAULT -> paint.fault("fault  ");
          case CAUTION -> paint.caution("caution");
          case NOTE -> paint.faint("note   ");
        };
    List<String> lines =
        wrapped(n.about() + ": " + n.message() + ". " + sentence(n.remedy()), WIDTH - 9);
    for (int i = 0; i < lines.size(); i++) {
      out.append(i == 0 ? mark + "  " : "         ").append(lines.get(i)).append('\n');
    }
  }

  private static String sentence(String remedy) {
    return remedy.isEmpty()
        ? ""
        : remedy.substring(0, 1).toUpperCase(Locale.ROOT) + remedy.substring(1) + ".";
  }

  private void columns(Findings f) {
    List<Finding> unit = new ArrayList<>();
    List<Finding> box = new ArrayList<>();
    for (Finding finding : f.findings()) {
      if (KEY.contains(finding.id())) {
        unit.add(finding);
      } else if (finding.id().startsWith("box.") || finding.id().startsWith("response.f")) {
        box.add(finding);
      }
    }
    if (unit.isEmpty() && box.isEmpty()) {
      return;
    }
    Column left = new Column(unit);
    Column right = new Column(box);
    heading(pad("Drive unit", left.width() + 4) + (box.isEmpty() ? "" : "Box"));
    for (int i = 0; i < Math.max(unit.size(), box.size()); i++) {
      String row = left.row(i) + (box.isEmpty() ? "" : "    " + right.row(i));
      out.append(row.stripTrailing()).append('\n');
    }
  }

  /** A line for each standing wave. */
  private void air(Findings f) {
    List<String> lines = new ArrayList<>();
    for (int wave = 1; f.finding("cavity.wave-" + wave).isPresent(); wave++) {
      String ripple = shown(f, "cavity.ripple-" + wave);
      String state = f.finding("cavity.lined-" + wave).isPresent() ? "lined" : "wave";
      if (!ripple.isEmpty()) {
        lines.add(
            padLeft(shown(f, "cavity." + state + "-" + wave), 24)
                + padLeft("Q " + shown(f, "cavity.q-" + wave), 16)
                + padLeft(ripple + " in the output", 30));
      }
    }
    if (!lines.isEmpty()) {
      heading("Air inside");
      lines.forEach(l -> out.append(l).append('\n'));
    }
  }

  /** A line for each wall, those most likely heard first, and what unseen ones are made of. */
  private void walls(Findings f) {
    String end = ".heard";
    List<String> walls =
        f.findings().stream()
            .filter(w -> w.id().startsWith("walls.") && w.id().endsWith(end))
            .sorted(Comparator.comparingDouble(w -> -w.estimate().value()))
            .map(w -> w.id().substring(0, w.id().length() - end.length()))
            .toList();
    if (!walls.isEmpty()) {
      heading("Walls");
    }
    for (String wall : walls) {
      String row =
          pad(wall.substring("walls.".length()), 8)
              + padLeft(shown(f, wall + ".resonance"), 16)
              + padLeft("loss " + shown(f, wall + ".loss"), 24)
              + padLeft(shown(f, wall + ".level") + " against the unit", 31)
              + padLeft("heard " + percent(f, wall + end), 18);
      out.append(row).append('\n');
    }
    f.finding("walls.board.odds")
        .ifPresent(
            o ->
                out.append(o.name())
                    .append(": ")
                    .append(percent(f, o.id()))
                    .append(", thickness ")
                    .append(shown(f, "walls.board.thickness"))
                    .append(", density ")
                    .append(shown(f, "walls.board.density"))
                    .append('\n'));
    if (f.finding("walls.feet.lowest").isPresent()) {
      out.append("The box moves on its feet between ")
          .append(shown(f, "walls.feet.lowest"))
          .append(" and ")
          .append(shown(f, "walls.feet.highest"))
          .append('\n');
    }
  }

  /** Suspects worth a word, what speaks for the first, and the next test. */
  private void noise(Suspicion s) {
    heading("What is that noise?");
    wrapped(s.conclusion(), WIDTH).forEach(l -> out.append(l).append('\n'));
    for (Suspicion.SuspectLine suspect : Chances.worthTelling(s)) {
      out.append(padLeft(Chances.percent(suspect.chance()), 12))
          .append("  ")
          .append(suspect.name())
          .append('\n');
    }
    Suspicion.SuspectLine first = s.suspects().get(0);
    first.speaksFor().forEach(c -> reason("for", c.words()));
    first.speaksAgainst().forEach(c -> reason("against", c.words()));
    if (!s.tests().isEmpty()) {
      NextTest t = s.tests().get(0);
      reason(
          Chances.confirms(t) ? "confirm" : "next",
          t.what()
              + " Expected to tell "
              + Chances.bits(t.bits())
              + ", about "
              + t.minutes()
              + " minutes. "
              + t.caution());
    }
    s.cautions().forEach(c -> reason("care", c));
  }

  private void reason(String mark, String text) {
    List<String> lines = wrapped(text, WIDTH - 9);
    for (int i = 0; i < lines.size(); i++) {
      out.append(pad(i == 0 ? mark : "", 9)).append(lines.get(i)).append('\n');
    }
  }

  private static String shown(Findings f, String id) {
    return f.finding(id).map(w -> Shown.of(w).text()).orElse("");
  }

  private static String percent(Findings f, String id) {
    return f.finding(id).map(w -> Shown.percent(w.estimate().value())).orElse("");
  }

  /** Symbol, value ± uncertainty, unit, aligned at the ±. */
  private static final class Column {
    private final List<String[]> cells = new ArrayList<>();
    private final int[] widths = new int[4];

    Column(List<Finding> findings) {
      for (Finding f : findings) {
        Shown s = Shown.of(f);
        String[] row = {f.symbol(), s.value(), s.uncertainty(), s.unit()};
        cells.add(row);
        for (int i = 0; i < 4; i++) {
          widths[i] = Math.max(widths[i], row[i].codePointCount(0, row[i].length()));
        }
      }
    }

    int width() {
      return cells.isEmpty() ? 0 : widths[0] + 2 + widths[1] + 3 + widths[2] + 1 + widths[3];
    }

    String row(int i) {
      if (i >= cells.size()) {
        return " ".repeat(width());
      }
      String[] c = cells.get(i);
      return pad(c[0], widths[0])
          + "  "
          + padLeft(c[1], widths[1])
          + (c[2].isEmpty() ? "   " : " ± ")
          + pad(c[2], widths[2])
          + " "
          + pad(c[3], widths[3]);
    }
  }

  private void crossCheck(CrossCheck c) {
    if (out.indexOf("Cross-checks") < 0) {
      heading("Cross-checks");
    }
    String sigmas = String.format(Locale.ROOT, "%.1f σ", c.sigmas());
    out.append(
        String.format(
            Locale.ROOT,
            "%s: %s by %s, %s by %s: %s%n",
            c.quantity(),
            shown(c.firstEstimate().value(), c.firstEstimate().sd(), c.unit()),
            c.first(),
            shown(c.secondEstimate().value(), c.secondEstimate().sd(), c.unit()),
            c.second(),
            c.sigmas() > 3 ? paint.caution(sigmas + " apart") : sigmas + " apart"));
  }

  private static String shown(double value, double sd, String unit) {
    return Shown.of(value, sd, unit).text();
  }

  private void judgement(Judgement j) {
    String verdict =
        switch (j.verdict()) {
          case SUPPORTED -> paint.good("supported   ");
          case CONTRADICTED -> paint.fault("contradicted");
          case NOT_SHOWN -> paint.faint("not shown   ");
        };
    out.append(verdict)
        .append("  “")
        .append(j.says())
        .append("” (")
        .append(j.by())
        .append("): ")
        .append(j.reason())
        .append('\n');
  }

  private void next(NextReading n) {
    String text = sentence(n.what()).replaceFirst("\\.$", "") + ": " + n.gain();
    wrapped(text, WIDTH).forEach(l -> out.append(l).append('\n'));
  }

  private static String pad(String s, int width) {
    return s + " ".repeat(Math.max(0, width - s.codePointCount(0, s.length())));
  }

  private static String padLeft(String s, int width) {
    return " ".repeat(Math.max(0, width - s.codePointCount(0, s.length()))) + s;
  }

  private static List<String> wrapped(String text, int width) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ", -1)) {
      if (line.length() + word.length() + 1 > width && line.length() > 0) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.length() == 0 ? "" : " ").append(word);
    }
    lines.add(line.toString());
    return lines;
  }
}
