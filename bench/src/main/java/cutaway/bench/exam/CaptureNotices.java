package cutaway.bench.exam;

import cutaway.acoustics.driveunit.VoltageDivider;
import cutaway.acoustics.signal.Capture;
import cutaway.acoustics.signal.CaptureCheck;
import cutaway.acoustics.signal.Hum;
import cutaway.acoustics.signal.Stretch;
import cutaway.acoustics.signal.Sweep;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** What is told of a recording's faults. */
final class CaptureNotices {
  /** Amplitude below which a channel holds nothing, full scale 1. */
  private static final double SILENT = 1e-5;

  private static final double LOW_LEVEL = 0.03;
  private static final double OFFSET = 1e-3;

  private CaptureNotices() {}

  static void tell(Capture capture, String about, double rate, List<Notice> out) {
    CaptureCheck check = capture.check();
    String lost = lost(capture);
    for (int channel = 1; channel <= 2; channel++) {
      stretches(check, channel, Stretch.Kind.CLIPPED, about, rate, lost, out);
    }
    stretches(check, 0, Stretch.Kind.DROPPED, about, rate, lost, out);
    flattened(capture, about, rate, lost, out);
    double peak = Math.max(check.peak(1), check.peak(2));
    if (peak < LOW_LEVEL) {
      out.add(
          Notice.caution(
              about,
              String.format(
                  Locale.ROOT, "low level: the peak is %.0f dB below full scale", -db(peak)),
              "raise the input gain until the peak is 6 to 12 dB below full scale"));
    }
    capture.hum().ifPresent(hum -> out.add(hum(hum, peak, about)));
    for (int channel = 1; channel <= 2; channel++) {
      if (Math.abs(check.offset(channel)) > OFFSET) {
        out.add(
            Notice.note(
                about,
                String.format(
                    Locale.ROOT,
                    "channel %d stands off zero by %.2f %% of full scale; taken out",
                    channel,
                    100 * check.offset(channel)),
                "nothing to do; a large offset may point to a faulty input"));
      }
    }
    if (capture.cutShort()) {
      out.add(
          Notice.caution(
              about,
              "the recording stops before the sweep does; what was swept is used",
              "let the recorder run on for a second after the sweep"));
    }
  }

  private static String lost(Capture capture) {
    return capture.dropped().stream()
        .map(b -> Shown.digits(b.low(), 3) + " to " + Shown.digits(b.high(), 3) + " Hz")
        .collect(Collectors.joining(" and "));
  }

  private static void stretches(
      CaptureCheck check,
      int channel,
      Stretch.Kind kind,
      String about,
      double rate,
      String lost,
      List<Notice> out) {
    List<Stretch> found =
        check.stretches().stream().filter(s -> s.kind() == kind && s.channel() == channel).toList();
    if (found.isEmpty()) {
      return;
    }
    boolean clipped = kind == Stretch.Kind.CLIPPED;
    String where = channel == 0 ? "both channels" : "channel " + channel;
    String what =
        clipped
            ? where
                + " clipped in "
                + found.size()
                + (found.size() == 1 ? " stretch" : " stretches")
            : "the stream dropped out " + found.size() + (found.size() == 1 ? " time" : " times");
    out.add(
        Notice.caution(
            about,
            String.format(
                Locale.ROOT,
                "%s, the first at %.2f s%s",
                what,
                found.get(0).first() / rate,
                lost.isEmpty() ? "" : "; left out: " + lost),
            clipped
                ? "lower the gain and record it again"
                : "close other programs, use a larger buffer, record it again"));
  }

  private static void flattened(
      Capture capture, String about, double rate, String lost, List<Notice> out) {
    for (int channel = 0; channel <= 2; channel++) {
      int it = channel;
      List<Stretch> flat = capture.flattened().stream().filter(s -> s.channel() == it).toList();
      if (!flat.isEmpty()) {
        out.add(flattened(flat, capture.sweep(), about, rate, lost));
      }
    }
  }

  private static Notice flattened(
      List<Stretch> flat, Optional<Sweep> sweep, String about, double rate, String lost) {
    double first = flat.get(0).first() / rate;
    double last = flat.get(flat.size() - 1).last() / rate;
    String range =
        sweep
            .map(s -> List.of(s.frequency(first), s.frequency(last)))
            .map(f -> Shown.digits(f.get(0), 2) + " and " + Shown.digits(f.get(1), 2) + " Hz")
            .map(r -> " between " + r)
            .orElse("");
    int channel = flat.get(0).channel();
    if (channel == 0) {
      return Notice.caution(
          about,
          "both channels' peaks are flattened below full scale"
              + range
              + ": the amplifier was overloaded",
          "lower the amplifier's level and record it again");
    }
    return Notice.caution(
        about,
        "channel "
            + channel
            + "'s peaks are flattened below full scale"
            + range
            + ": its input was overloaded"
            + (lost.isEmpty() ? "" : "; left out: " + lost),
        "lower the level before that input and record it again");
  }

  private static Notice hum(Hum hum, double peak, String about) {
    String orders =
        hum.harmonics().stream()
            .map(h -> Integer.toString(h.order()))
            .collect(Collectors.joining(", "));
    return Notice.note(
        about,
        String.format(
            Locale.ROOT,
            "mains hum at %.2f Hz (orders %s), %.0f dB below the signal's peak; taken out, and the"
                + " points within 1.5 Hz left away",
            hum.frequency(),
            orders,
            db(peak) - db(hum.strongest())),
        "keep the cables away from transformers, connect grounds at one point");
  }

  static void tell(VoltageDivider divider, String about, double rate, List<Notice> out) {
    if (divider.troubles().contains(VoltageDivider.Trouble.SWAPPED)) {
      out.add(
          Notice.caution(
              about,
              "the channels are swapped: channel 1 is the smaller voltage; exchanged",
              "swap the plugs before the next take"));
    }
    if (divider.troubles().contains(VoltageDivider.Trouble.REVERSED)) {
      out.add(
          Notice.caution(
              about, "channel 2 is upside down; turned over", "swap hot and return of that probe"));
    }
    double gain = 20 * Math.log10(divider.correction().gain());
    if (Math.abs(gain) > 3) {
      out.add(
          Notice.caution(
              about,
              String.format(Locale.ROOT, "the channels differ by %.1f dB in gain", gain),
              "set both gains alike, and check the calibration resistor's value"));
    }
  }

  /** Why nothing could be taken from a recording. */
  static Notice nothing(Capture capture, String about) {
    for (int channel = 1; channel <= 2; channel++) {
      if (capture.check().peak(channel) < SILENT) {
        return Notice.fault(
            about,
            "channel " + channel + " is silent, so there is no impedance to take",
            "check the cable of channel " + channel + " and record it again");
      }
    }
    boolean clipped =
        capture.check().stretches().stream().anyMatch(s -> s.kind() == Stretch.Kind.CLIPPED);
    return Notice.fault(
        about,
        clipped
            ? "so much of the recording is clipped that no impedance can be taken from the rest"
            : "the recording holds nothing an impedance could be taken from",
        clipped
            ? "lower the gain and record it again"
            : "check cables and levels, record it again");
  }

  private static double db(double amplitude) {
    return 20 * Math.log10(Math.max(amplitude, 1e-12));
  }
}
