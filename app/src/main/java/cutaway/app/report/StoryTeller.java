package cutaway.app.report;

import cutaway.app.chart.Chart;
import cutaway.app.chart.Chart.Marker;
import cutaway.app.chart.SvgChart;
import cutaway.app.drawing.CutawayDrawing;
import cutaway.app.report.Story.Chapter;
import cutaway.app.report.Story.ChartFigure;
import cutaway.app.report.Story.CheckRow;
import cutaway.app.report.Story.ClaimRow;
import cutaway.app.report.Story.Fact;
import cutaway.app.report.Story.FindingRow;
import cutaway.app.report.Story.NextRow;
import cutaway.app.report.Story.NoticeRow;
import cutaway.app.report.Story.TakeRow;
import cutaway.bench.dossier.Solved;
import cutaway.bench.dossier.SolvedJson;
import cutaway.bench.finding.CrossCheck;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Judgement;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.sheet.Mount;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.TakeEntry;
import cutaway.bench.sheet.Words;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/** Tells a dossier's story from its sheet and its findings: a plain function. */
public final class StoryTeller {
  private final Sheet sheet;
  private final Solved solved;
  private final Findings findings;
  private final Charts charts;

  private StoryTeller(Sheet sheet, Solved solved) {
    this.sheet = sheet;
    this.solved = solved;
    this.findings = solved.findings();
    this.charts = new Charts(findings);
  }

  /** The story. */
  public static Story tell(Sheet sheet, Solved solved) {
    return new StoryTeller(sheet, solved).story();
  }

  private Story story() {
    String obtained = sheet.unit().obtained().isEmpty() ? "" : ", " + sheet.unit().obtained();
    return new Story(
        sheet.unit().name(),
        sheet.unit().kind() + obtained,
        facts(),
        CutawayDrawing.of(sheet, findings),
        findings.notices().stream().map(StoryTeller::notice).toList(),
        Stream.of(driveUnit(), box(), air(), walls(), noise(), predictions())
            .flatMap(Optional::stream)
            .toList(),
        findings.suspicion(),
        findings.crossChecks().stream().map(StoryTeller::check).toList(),
        findings.judgements().stream().map(StoryTeller::claim).toList(),
        findings.nextReadings().stream()
            .map(n -> new NextRow(capital(n.what()), n.gain()))
            .toList(),
        Stream.concat(
                sheet.takes().stream().map(t -> take(t.id(), t.file())),
                sheet.sounds().takes().stream().map(t -> take(t.id(), t.file())))
            .toList(),
        solved.basis().entrySet().stream()
            .map(e -> new Fact(e.getKey(), e.getValue().substring(0, 16)))
            .toList(),
        solved.version());
  }

  private TakeRow take(String id, String file) {
    return new TakeRow(id, file, solved.understood().getOrDefault(id, "not used"));
  }

  private Optional<Chapter> noise() {
    return findings
        .suspicion()
        .map(
            s ->
                new Chapter(
                    "noise",
                    "What is that noise?",
                    s.conclusion(),
                    rows("noise."),
                    charts.atRest().stream().map(StoryTeller::figure).toList()));
  }

  private List<Fact> facts() {
    List<Fact> out = new ArrayList<>();
    sheet
        .unit()
        .prices()
        .forEach(
            p ->
                out.add(
                    new Fact(
                        "Price",
                        Stream.of(p.amount(), p.where(), p.on())
                            .filter(s -> !s.isEmpty())
                            .reduce((a, b) -> a + ", " + b)
                            .orElse(""))));
    sheet.box().ifPresent(b -> out.add(new Fact("Loading", Words.of(b.loading()))));
    sheet
        .box()
        .flatMap(Sheet.BoxReadings::mass)
        .ifPresent(
            m -> out.add(new Fact("Mass of the unit", both(m.text(), m.estimate().value()))));
    sheet
        .driveUnit()
        .mass()
        .ifPresent(
            m -> out.add(new Fact("Mass of the drive unit", both(m.text(), m.estimate().value()))));
    sheet
        .driveUnit()
        .nominalImpedance()
        .ifPresent(z -> out.add(new Fact("Nominal impedance", z.text())));
    if (!sheet.unit().note().isEmpty()) {
      out.add(new Fact("Note", sheet.unit().note()));
    }
    return out;
  }

  /** As written, and in the other system. */
  private static String both(String written, double kilograms) {
    boolean imperial = written.contains("lb") || written.contains("oz");
    return written
        + (imperial
            ? String.format(Locale.ROOT, " (%.2f kg)", kilograms)
            : String.format(Locale.ROOT, " (%.2f lb)", kilograms / 0.45359237));
  }

  private Optional<Chapter> driveUnit() {
    List<FindingRow> rows = rows("drive-unit.");
    if (rows.isEmpty()) {
      return Optional.empty();
    }
    List<String> bare =
        sheet.takes().stream().filter(t -> t.mount() != Mount.BOX).map(TakeEntry::id).toList();
    List<Marker> fs =
        findings
            .finding("drive-unit.fs")
            .map(f -> List.of(new Marker(f.estimate().value(), "f_s")))
            .orElse(List.of());
    List<ChartFigure> figures = new ArrayList<>();
    charts
        .impedance(
            "impedance-unit",
            "Impedance of the drive unit: measured points, fitted lines",
            bare,
            fs)
        .map(StoryTeller::figure)
        .ifPresent(figures::add);
    charts
        .residuals("residual-unit", "What the fit leaves over", bare)
        .map(StoryTeller::figure)
        .ifPresent(figures::add);
    return Optional.of(
        new Chapter("drive-unit", "What is in the drive unit?", driveUnitLead(), rows, figures));
  }

  private String driveUnitLead() {
    StringBuilder s = new StringBuilder();
    find("drive-unit.fs").ifPresent(f -> s.append("It resonates at ").append(Shown.of(f).text()));
    find("drive-unit.qts")
        .ifPresent(
            f ->
                s.append(" with a total Q of ")
                    .append(Shown.of(f).text())
                    .append(
                        f.estimate().value() < 0.35
                            ? ", strongly damped"
                            : f.estimate().value() < 0.6
                                ? ", moderately damped"
                                : ", lightly damped"));
    s.append(s.isEmpty() ? "" : ".");
    find("drive-unit.mms")
        .ifPresent(
            m ->
                s.append(" ")
                    .append(Shown.of(m).text())
                    .append(" move")
                    .append(
                        find("drive-unit.bl")
                            .map(b -> ", driven by " + Shown.of(b).text() + ".")
                            .orElse(".")));
    return s.toString().strip();
  }

  private Optional<Chapter> box() {
    List<FindingRow> rows = rows("box.");
    if (rows.isEmpty()) {
      return Optional.empty();
    }
    List<String> boxed =
        sheet.takes().stream().filter(t -> t.mount() == Mount.BOX).map(TakeEntry::id).toList();
    List<Marker> marks = new ArrayList<>();
    find("box.fb").ifPresent(f -> marks.add(new Marker(f.estimate().value(), "f_b")));
    if (marks.isEmpty()) {
      find("box.fc").ifPresent(f -> marks.add(new Marker(f.estimate().value(), "f_c")));
    }
    List<ChartFigure> figures = new ArrayList<>();
    charts
        .impedance(
            "impedance-box", "Impedance in the box: measured points, fitted line", boxed, marks)
        .map(StoryTeller::figure)
        .ifPresent(figures::add);
    charts
        .residuals("residual-box", "What the fit leaves over in the box", boxed)
        .map(StoryTeller::figure)
        .ifPresent(figures::add);
    return Optional.of(new Chapter("box", "What does the box do?", boxLead(), rows, figures));
  }

  private String boxLead() {
    StringBuilder s = new StringBuilder();
    find("box.fb")
        .or(() -> find("box.fc"))
        .ifPresent(
            f ->
                s.append(f.symbol().equals("f_b") ? "It is tuned to " : "It resonates at ")
                    .append(Shown.of(f).text()));
    find("box.volume")
        .ifPresent(
            v ->
                s.append(s.isEmpty() ? "It works with " : " and works with ")
                    .append(Shown.of(v).text())
                    .append(" of air"));
    find("box.qtc").ifPresent(q -> s.append(", total Q ").append(Shown.of(q).text()));
    return s.isEmpty() ? "" : s.append('.').toString();
  }

  private Optional<Chapter> walls() {
    List<FindingRow> rows = rows("walls.");
    if (rows.isEmpty()) {
      return Optional.empty();
    }
    WallsChapter walls = new WallsChapter(findings);
    return Optional.of(
        new Chapter(
            "walls",
            "What do the walls do?",
            walls.lead(),
            rows,
            walls.charts(charts, StoryTeller::figure),
            walls.exhibit()));
  }

  private Optional<Chapter> air() {
    List<FindingRow> rows = rows("cavity.");
    if (rows.isEmpty()) {
      return Optional.empty();
    }
    AirChapter air = new AirChapter(findings);
    return Optional.of(
        new Chapter(
            "air",
            "What does the air inside do?",
            air.lead(),
            rows,
            air.charts(charts, StoryTeller::figure),
            air.exhibit()));
  }

  private Optional<Chapter> predictions() {
    List<FindingRow> rows = rows("response.");
    List<ChartFigure> figures = new ArrayList<>();
    List<Marker> marks = new ArrayList<>();
    find("response.f3").ifPresent(f -> marks.add(new Marker(f.estimate().value(), "−3 dB")));
    Stream.of(
            charts.predicted(
                "level",
                name("response.half-space"),
                "level at 1 m, dB",
                v -> v,
                Double.NaN,
                marks,
                "response.half-space",
                "half space",
                "response.full-space",
                "full space"),
            charts.predicted(
                "watt",
                name("response.one-watt"),
                "level at 1 m, dB",
                v -> v,
                Double.NaN,
                List.of(),
                "response.one-watt",
                "1 W"),
            charts.predicted(
                "excursion",
                name("response.excursion"),
                "peak excursion, mm",
                v -> 1000 * v,
                0,
                List.of(),
                "response.excursion",
                "cone"),
            charts.predicted(
                "port",
                name("response.port-speed"),
                "peak air speed, m/s",
                v -> v,
                0,
                List.of(),
                "response.port-speed",
                "port"),
            charts.predicted(
                "delay",
                name("response.group-delay"),
                "group delay, ms",
                v -> 1000 * v,
                Double.NaN,
                List.of(),
                "response.group-delay",
                "delay"),
            charts.predicted(
                "step",
                name("response.step"),
                "pressure at 1 m, Pa",
                v -> v,
                Double.NaN,
                List.of(),
                "response.step",
                "step"))
        .flatMap(Optional::stream)
        .map(StoryTeller::figure)
        .forEach(figures::add);
    return figures.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Chapter(
                "predictions",
                "What should come out?",
                "Small-signal predictions from the fit, the bands two standard uncertainties wide"
                    + " either way."
                    + beaming(),
                rows,
                figures));
  }

  /** Up to where the predictions hold: ka = 1 for the piston's radius a, in air of 343 m/s. */
  private String beaming() {
    return find("drive-unit.sd")
        .map(f -> 343 / (2 * Math.PI * Math.sqrt(f.estimate().value() / Math.PI)))
        .map(
            f ->
                " They hold while the cone is small against the wavelength, for this one below some "
                    + Shown.digits(f, 2)
                    + " Hz, and are drawn to 500 Hz.")
        .orElse("");
  }

  private String name(String curve) {
    return findings.curve(curve).map(c -> c.name()).orElse("");
  }

  private Optional<Finding> find(String id) {
    return findings.finding(id);
  }

  private static ChartFigure figure(Chart chart) {
    return new ChartFigure(chart, SvgChart.of(chart), SolvedJson.compact(chart));
  }

  private List<FindingRow> rows(String prefix) {
    return findings.findings().stream()
        .filter(f -> f.id().startsWith(prefix))
        .map(StoryTeller::row)
        .toList();
  }

  private static FindingRow row(Finding f) {
    Shown s = Shown.of(f);
    return new FindingRow(
        f.id(),
        f.name(),
        f.symbol(),
        s.value(),
        s.uncertainty(),
        s.unit(),
        Shown.inches(f).map(Shown::text).orElse(""),
        f.method(),
        String.join(", ", f.restsOn()),
        f.fingerprint().substring(0, 16),
        f.cautions());
  }

  private static NoticeRow notice(Notice n) {
    return new NoticeRow(
        n.severity().name().toLowerCase(Locale.ROOT), n.about(), n.message(), capital(n.remedy()));
  }

  private static String capital(String s) {
    return s.isEmpty() ? s : s.substring(0, 1).toUpperCase(Locale.ROOT) + s.substring(1);
  }

  private static CheckRow check(CrossCheck c) {
    return new CheckRow(
        capital(c.quantity()),
        capital(c.first())
            + ": "
            + Shown.of(c.firstEstimate().value(), c.firstEstimate().sd(), c.unit()).text(),
        capital(c.second())
            + ": "
            + Shown.of(c.secondEstimate().value(), c.secondEstimate().sd(), c.unit()).text(),
        String.format(Locale.ROOT, "%.1f σ", c.sigmas()),
        c.sigmas() > 3);
  }

  private static ClaimRow claim(Judgement j) {
    String verdict =
        switch (j.verdict()) {
          case SUPPORTED -> "Supported";
          case CONTRADICTED -> "Contradicted";
          case NOT_SHOWN -> "Not shown";
        };
    return new ClaimRow(
        verdict,
        verdict.toLowerCase(Locale.ROOT).replace(' ', '-'),
        j.says(),
        j.by(),
        j.reason(),
        j.evidence().isEmpty() ? "" : j.evidence().get(0));
  }
}
