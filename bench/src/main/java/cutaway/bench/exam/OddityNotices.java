package cutaway.bench.exam;

import cutaway.acoustics.box.Loading;
import cutaway.acoustics.driveunit.CurveShape;
import cutaway.acoustics.driveunit.CurveShape.Oddity;
import cutaway.acoustics.driveunit.ImpedanceCurve;
import cutaway.acoustics.driveunit.Mounting;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.sheet.Mount;
import cutaway.bench.sheet.Sheet.TakeEntry;
import java.util.stream.Collectors;

/** What is told of a curve whose shape is not that of a plain drive unit. */
final class OddityNotices {
  private OddityNotices() {}

  static Notice of(Oddity oddity, TakeEntry entry, CurveShape shape, Mounting mounting) {
    String about = "takes." + entry.id();
    String peaks =
        shape.peakFrequencies().stream()
            .map(f -> Shown.digits(f, 3))
            .collect(Collectors.joining(", "));
    return switch (oddity) {
      case TOO_LITTLE ->
          Notice.fault(
              about,
              "too few points or too narrow a range for any fit",
              "sweep from about 5 Hz to 20 kHz");
      case SERIES_CAPACITOR ->
          Notice.fault(
              about,
              "the impedance rises towards low frequencies like a capacitor's: one stands in series,"
                  + " as in a crossover; no model of a bare drive unit is forced on it",
              "measure at the drive unit's own terminals");
      case NOT_PASSIVE ->
          Notice.fault(
              about,
              "the resistance is negative over part of the range, which no drive unit's is",
              entry.isRecording()
                  ? "check the values of both resistors in the sheet, that no gain was turned after the"
                      + " calibration, and where the probes were"
                  : "check polarity and channels of the probes, and which column is which; real and"
                      + " imaginary parts are said by 'read: { columns: [frequency, real, imaginary] }'");
      case PHASE_REVERSED ->
          Notice.fault(
              about,
              "the phase has the wrong sign: capacitive where the coil makes the magnitude rise",
              entry.isRecording()
                  ? "check the polarity of the probes and take it again"
                  : "check the polarity of the probes, or leave the phase column away with"
                      + " 'read: { columns: [frequency, magnitude, ignore] }'");
      case NO_PEAK ->
          Notice.fault(
              about,
              "no motional peak stands out, so there is no resonance to read",
              "check that the cone moves freely and that this is a drive unit; sweep from 5 Hz");
      case PEAK_BELOW_RANGE -> below(about, entry, mounting);
      case EXTRA_LOW_PEAK -> extra(about, shape, peaks, entry.mount() == Mount.BOX);
      case MISSING_LOW_PEAK ->
          Notice.fault(
              about,
              "one low peak where "
                  + mountingWords(mounting)
                  + " shows two (peaks: "
                  + peaks
                  + " Hz)",
              "is the port blocked? then say 'port: blocked'; is the box sealed? then say"
                  + " 'loading: sealed'; else look for a large leak");
      case SEVERAL_WAYS ->
          Notice.fault(
              about,
              "peaks far above the resonance ("
                  + peaks
                  + " Hz): a whole loudspeaker with its"
                  + " crossover, not one drive unit; no model is forced on it",
              entry.isRecording() && entry.calibration().isEmpty()
                  ? "measure each drive unit at its own terminals; and record a calibration, for a delay"
                      + " between the channels looks the same"
                  : "measure each drive unit at its own terminals");
      case REPEATED_ROWS ->
          Notice.caution(
              about,
              "the same value stands in "
                  + shape.repeatedRows()
                  + " rows in a row at low frequencies; they count once",
              "export with a longer analysis, so that every row is measured");
    };
  }

  private static String mountingWords(Mounting mounting) {
    return mounting instanceof Mounting.Boxed b && b.load().ownFrequency()
        ? "a " + (b.load() instanceof Loading.Vented ? "vented box" : "box with a radiator")
        : "this";
  }

  private static Notice below(String about, TakeEntry entry, Mounting mounting) {
    boolean boxed = mounting instanceof Mounting.Boxed b && b.load().ownFrequency();
    String message =
        "the curve begins at " + (boxed ? "or above its lower peak" : "or above its resonance");
    String remedy = "sweep from a quarter of the lowest resonance, 5 Hz at best";
    return boxed && entry.mount() == Mount.BOX
        ? Notice.caution(about, message + ", so the losses are known less well", remedy)
        : Notice.fault(about, message, remedy);
  }

  private static Notice extra(String about, CurveShape shape, String peaks, boolean boxed) {
    boolean mild = shape.peakFrequencies().size() == 2 && shape.secondOverFirst() < 0.6;
    String message =
        shape.peakFrequencies().size() + " low peaks (" + peaks + " Hz) where one is expected";
    return mild
        ? Notice.caution(
            about,
            message + ": something else resonates too",
            "clamp the frame firmly, hold loose parts, take it again")
        : Notice.fault(
            about,
            message + "; no model of a bare drive unit is forced on it",
            boxed
                ? "is the box vented? then say 'loading: vented'; else look for what else resonates"
                : "is it in a vented box? then say 'mount: box'; else look for what else resonates");
  }

  /** The curve with each run of equal values at its low end kept as one row, the middle one. */
  static ImpedanceCurve withoutRepeats(ImpedanceCurve curve) {
    boolean[] kept = new boolean[curve.size()];
    int first = 0;
    for (int i = 1; i <= curve.size(); i++) {
      boolean repeats =
          i < curve.size() / 3 && curve.re(i) == curve.re(i - 1) && curve.im(i) == curve.im(i - 1);
      if (!repeats) {
        kept[(first + i - 1) / 2] = true;
        first = i;
      }
    }
    return curve.where(i -> kept[i]);
  }
}
