package cutaway.app.report;

import cutaway.app.chart.Chart;
import cutaway.bench.finding.Suspicion;
import java.util.List;
import java.util.Optional;

/**
 * What page and report show of a dossier, ready to be set.
 *
 * @param title the unit's name
 * @param subtitle kind, how obtained
 * @param facts what is known of it beforehand: name and text
 * @param drawing the cutaway drawing as SVG
 * @param notices gravest first
 * @param chapters a tester's questions with what answers them
 * @param suspicion who makes a noise
 * @param checks cross-checks
 * @param claims judged claims
 * @param nextReadings what would tell more
 * @param takes how each file was read
 * @param basis hashes of the files everything rests on
 * @param version of Cutaway
 */
public record Story(
    String title,
    String subtitle,
    List<Fact> facts,
    String drawing,
    List<NoticeRow> notices,
    List<Chapter> chapters,
    Optional<Suspicion> suspicion,
    List<CheckRow> checks,
    List<ClaimRow> claims,
    List<NextRow> nextReadings,
    List<TakeRow> takes,
    List<Fact> basis,
    String version) {

  /**
   * A name and a text.
   *
   * @param name left
   * @param text right
   */
  public record Fact(String name, String text) {}

  /**
   * A notice.
   *
   * @param level fault, caution or note
   * @param about what it concerns
   * @param message what was seen
   * @param remedy what to do
   */
  public record NoticeRow(String level, String about, String message, String remedy) {}

  /**
   * A question and its answers.
   *
   * @param id anchor
   * @param question heading
   * @param lead the answer in a sentence
   * @param findings rows
   * @param charts charts
   * @param exhibit what else it shows
   */
  public record Chapter(
      String id,
      String question,
      String lead,
      List<FindingRow> findings,
      List<ChartFigure> charts,
      Exhibit exhibit) {
    /** With rows and charts only. */
    public Chapter(
        String id,
        String question,
        String lead,
        List<FindingRow> findings,
        List<ChartFigure> charts) {
      this(id, question, lead, findings, charts, Exhibit.NONE);
    }
  }

  /**
   * Pictures, sentences and a table.
   *
   * @param drawing a wide picture as SVG; may be empty
   * @param verdicts sentences
   * @param head heads of the table's columns
   * @param rows its rows
   * @param pictures smaller pictures: caption and SVG
   * @param care caution for those who would follow; may be empty
   */
  public record Exhibit(
      String drawing,
      List<String> verdicts,
      List<String> head,
      List<List<String>> rows,
      List<Fact> pictures,
      String care) {
    /** Nothing. */
    public static final Exhibit NONE =
        new Exhibit("", List.of(), List.of(), List.of(), List.of(), "");
  }

  /**
   * A finding.
   *
   * @param id stable id
   * @param name in words
   * @param symbol the trade's symbol
   * @param value digits
   * @param uncertainty digits, may be empty
   * @param unit unit
   * @param inches the same in inch units, may be empty
   * @param method how it was found
   * @param restsOn takes and readings
   * @param fingerprint the first digits of their content hash
   * @param cautions what to keep in mind
   */
  public record FindingRow(
      String id,
      String name,
      String symbol,
      String value,
      String uncertainty,
      String unit,
      String inches,
      String method,
      String restsOn,
      String fingerprint,
      List<String> cautions) {}

  /**
   * A chart with both its forms.
   *
   * @param chart the description
   * @param svg drawn on paper
   * @param json for the page
   */
  public record ChartFigure(Chart chart, String svg, String json) {}

  /**
   * A cross-check.
   *
   * @param quantity what both tell
   * @param first the first way and figure
   * @param second the second way and figure
   * @param sigmas how far apart
   * @param apart whether too far
   */
  public record CheckRow(
      String quantity, String first, String second, String sigmas, boolean apart) {}

  /**
   * A claim.
   *
   * @param verdict supported, contradicted or not shown
   * @param level style of the verdict
   * @param says its words
   * @param by who makes it
   * @param reason why
   * @param evidence id of the finding used
   */
  public record ClaimRow(
      String verdict, String level, String says, String by, String reason, String evidence) {}

  /**
   * A reading that would tell more.
   *
   * @param what to do
   * @param tells which quantity, from how well to how well
   */
  public record NextRow(String what, String tells) {}

  /**
   * A take.
   *
   * @param id its name
   * @param file where it lies
   * @param understood how it was read
   */
  public record TakeRow(String id, String file, String understood) {}
}
