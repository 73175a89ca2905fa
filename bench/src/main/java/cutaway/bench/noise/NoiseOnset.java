package cutaway.bench.noise;

import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.Family;
import cutaway.acoustics.fault.Onset;
import cutaway.acoustics.stimulus.Tone;
import cutaway.acoustics.suspect.Suspect;
import cutaway.bench.finding.Notice;
import cutaway.bench.noise.NoiseTests.Done;
import cutaway.bench.result.Results;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** From which level on the likeliest suspect sounds. */
final class NoiseOnset {
  /** An uncertainty beyond which one would ask for more, dB. */
  private static final double COARSE = 2;

  /** Left over by more, it is heard, dB. */
  private static final double CLEAR = 6;

  private NoiseOnset() {}

  /** Of an onset, the take that tells it. */
  private record Told(String take, Onset onset) {}

  /** Tells it by the take that tells it best, if any does; else what is known of it. */
  static void tell(Suspect suspect, List<Done> takes, Results results) {
    if (suspect.driver().isEmpty()) {
      return;
    }
    Optional<Told> best =
        takes.stream()
            .filter(Done::untouched)
            .flatMap(d -> told(d, suspect).stream())
            .min(Comparator.comparingDouble(t -> t.onset.level().sd()));
    best.ifPresent(t -> tell(suspect, t, results));
    if (best.isEmpty()) {
      List<Done> untouched = takes.stream().filter(Done::untouched).toList();
      untouched.stream()
          .filter(NoiseOnset::soundsWhenSoftest)
          .findFirst()
          .map(NoiseOnset::below)
          .or(() -> untouched.stream().flatMap(d -> untold(d).stream()).findFirst())
          .ifPresent(results::notice);
    }
  }

  /** What swings by itself goes by no motion that a sweep shows: a tone at several levels does. */
  private static Optional<Notice> untold(Done d) {
    return d.clues()
        .spot()
        .filter(s -> s.frequency() > 0)
        .map(
            s ->
                Notice.note(
                    "takes." + d.sound().id(),
                    "from which level it sounds these takes do not tell",
                    levels(NoiseTests.hertz(s.frequency()))));
  }

  /** How to hear from which level it sounds, to a decibel or two. */
  private static String levels(String frequency) {
    return "play a tone at levels 3 dB apart, made by: cutaway signal tone levels.wav --at '"
        + frequency
        + "' --lasting '1 s' --level='-24 dB,-21 dB,-18 dB,-15 dB,-12 dB,-9 dB,-6 dB'";
  }

  /** Whether what is left over of tones that stand is heard at the softest of them already. */
  private static boolean soundsWhenSoftest(Done d) {
    Optional<Double> loud = d.clues().clue(Family.STANDING, Clue.MARGIN);
    Optional<Double> growth = d.clues().clue(Family.STANDING, Clue.GROWTH);
    return loud.isPresent() && growth.isPresent() && loud.get() - growth.get() >= CLEAR;
  }

  private static Notice below(Done d) {
    double[] peaks =
        d.sound().played().stream()
            .limit(1)
            .flatMap(s -> s.tones().stream())
            .mapToDouble(Tone::amplitude)
            .sorted()
            .toArray();
    return Notice.caution(
        "takes." + d.sound().id(),
        String.format(
            Locale.ROOT,
            "it sounds at the softest of these tones already, %.0f dB under the loudest: the level"
                + " at which it begins is lower still",
            20 * Math.log10(peaks[peaks.length - 1] / peaks[0])),
        "play the same tone 10 and 20 dB softer than that");
  }

  private static Optional<Told> told(Done d, Suspect suspect) {
    // without a voltage an overload shows by the level played
    return suspect
        .driver()
        .flatMap(
            by ->
                d.clues()
                    .onset(by)
                    .or(
                        () ->
                            by == Onset.Driver.VOLTAGE
                                ? d.clues().onset(Onset.Driver.PLAYED)
                                : Optional.empty()))
        .map(o -> new Told(d.sound().id(), o));
  }

  private static void tell(Suspect suspect, Told told, Results results) {
    Onset onset = told.onset;
    Estimate level = onset.level();
    String method =
        String.format(
            Locale.ROOT,
            "%s, %.1f ± %.1f dB under what was played at %s; taken for: %s; docs/methods/noise.md",
            how(onset.by(), told.take),
            Math.max(0, -level.value()),
            level.sd(),
            NoiseTests.hertz(onset.frequency()),
            suspect.words());
    List<String> basis = List.of("takes." + told.take);
    String name = "Begins to sound at, " + NoiseTests.hertz(onset.frequency());
    if (onset.played().isPresent()) {
      double volts = onset.played().get() * Math.pow(10, level.value() / 20);
      Estimate voltage = new Estimate(volts, volts * Math.log(10) / 20 * level.sd());
      results.add(
          "noise.onset",
          name,
          "U",
          voltage,
          "V",
          method,
          basis,
          cautions(level, NoiseTests.hertz(onset.frequency())));
    } else {
      results.add(
          "noise.onset",
          name + ", against the level played",
          "L",
          level,
          "dB",
          method,
          basis,
          cautions(level, NoiseTests.hertz(onset.frequency())));
    }
  }

  private static String[] cautions(Estimate level, String frequency) {
    return level.sd() > COARSE
        ? new String[] {"to know it better " + levels(frequency)}
        : new String[0];
  }

  private static String how(Onset.Driver by, String take) {
    return by == Onset.Driver.VOLTAGE
        ? "peak of the voltage in " + take + " against what its softest tone foretells"
        : "threshold of "
            + words(by)
            + " that best parts the moments of "
            + take
            + " with something left over from those without";
  }

  private static String words(Onset.Driver by) {
    return switch (by) {
      case DISPLACEMENT -> "the cone's displacement";
      case ACCELERATION -> "the cone's acceleration";
      case PORT_FLOW -> "the air's speed in the port";
      case PLAYED -> "the level played";
      case VOLTAGE -> "the amplifier's voltage";
    };
  }
}
