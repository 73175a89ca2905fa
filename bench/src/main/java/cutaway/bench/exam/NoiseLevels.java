package cutaway.bench.exam;

import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.Family;
import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.fault.NoiseTake;
import cutaway.acoustics.fault.Place;
import cutaway.acoustics.fault.Sensor;
import cutaway.acoustics.fault.Spot;
import cutaway.acoustics.fault.TakeClues;
import cutaway.acoustics.meter.FrequencyWeighting;
import cutaway.acoustics.meter.PowerSpectrum;
import cutaway.bench.exam.NoiseTests.Done;
import cutaway.bench.sheet.SoundReadings;
import cutaway.bench.sheet.SoundTake;
import cutaway.bench.sheet.Words;
import java.util.List;
import java.util.Locale;

/** How loud what is left over is, at which microphone, and where it can be shown to others. */
final class NoiseLevels {
  private static final String LEFT_OF_MUSIC =
      "all that comes along one linear path from the music taken out; the rest against silence and"
          + " a ten-thousandth of the music, in octave bands (docs/methods/noise.md)";
  private static final String LEFT_OVER =
      "harmonics taken out in step with the tone's phase; the rest against silence, in octave"
          + " bands (docs/methods/noise.md)";

  /** Standard uncertainty of a level where full scale is known, and where it is not, dB. */
  private static final double CALIBRATED = 1;

  private static final double UNCALIBRATED = 6;

  private final SoundReadings sounds;
  private final Results results;

  NoiseLevels(SoundReadings sounds, Results results) {
    this.sounds = sounds;
    this.results = results;
  }

  /** Tells them of a take. */
  void tell(SoundTake sound, NoiseTake take, TakeClues clues) {
    String about = "takes." + sound.id();
    boolean told = sound.channels().stream().allMatch(SoundTake.Channel::told);
    double sd = told ? CALIBRATED : UNCALIBRATED;
    List<String> basis = List.of(about);
    for (int i = 0; i < clues.places().size(); i++) {
      Place p = clues.places().get(i);
      boolean first = i == 0;
      Spot s = p.spot();
      results.add(
          "noise." + sound.id() + (first ? ".left-over" : ".second"),
          (first ? "Left over in " : "At a second place in ") + sound.id(),
          "L",
          new Estimate(s.level(), sd),
          "dB",
          String.format(
              Locale.ROOT,
              "%s; loudest at the %s, %s, in the octave at %.0f Hz, %.0f dB over silence%s",
              s.ofMusic() ? LEFT_OF_MUSIC : LEFT_OVER,
              Words.of(s.sensor()),
              when(s),
              s.band(),
              s.margin(),
              beside(p)),
          basis);
    }
    if (sound.done() == Intervention.NONE) {
      clues.places().stream()
          .findFirst()
          .flatMap(Place::audible)
          .ifPresent(a -> new NoiseHeard(sounds, results).tell(sound.id(), a, sd));
    }
    if (take.signal().isEmpty() && take.channels().containsKey(Sensor.CONE)) {
      PowerSpectrum spectrum = PowerSpectrum.of(take.channel(Sensor.CONE), take.rate());
      results.add(
          "noise." + sound.id() + ".rest",
          "At rest in " + sound.id() + ", at the cone",
          "L_A",
          new Estimate(FrequencyWeighting.A.level(spectrum), sd),
          "dB",
          "A-weighted (IEC 61672-1), the room's own noise included; docs/methods/meters.md",
          basis);
      hum(sound, clues, sd, basis);
    }
  }

  private void hum(SoundTake sound, TakeClues clues, double sd, List<String> basis) {
    double power = 0;
    for (Clue c : List.of(Clue.MAINS_FIRST, Clue.MAINS_ODD, Clue.MAINS_EVEN)) {
      double level = clues.clue(Family.MAINS, c).orElse(0.0);
      power += level > 0 ? Math.pow(10, level / 10) : 0;
    }
    if (power > 0) {
      results.add(
          "noise." + sound.id() + ".hum",
          "Hum in " + sound.id() + ", at the cone",
          "L",
          new Estimate(10 * Math.log10(power), sd),
          "dB",
          "multiples of the mains that stand 13 dB out, added; docs/methods/noise.md",
          basis);
    }
    clues
        .clue(Family.STRAY, Clue.STRAY)
        .filter(l -> l > 0)
        .ifPresent(
            l ->
                results.add(
                    "noise." + sound.id() + ".tone",
                    "Stray tone in " + sound.id() + ", at the cone",
                    "L",
                    new Estimate(l, sd),
                    "dB",
                    "a line that stays and is no multiple of the mains; docs/methods/noise.md",
                    basis));
  }

  private static String when(Spot s) {
    return s.ofMusic()
        ? String.format(Locale.ROOT, "%.1f s into the music", s.since())
        : "while " + NoiseTests.hertz(s.frequency()) + " plays";
  }

  /** Where what is left over can be shown to others. */
  static List<String> shows(List<Done> done) {
    return done.stream()
        .filter(Done::untouched)
        .flatMap(d -> d.clues().places().stream().map(p -> show(d, p)))
        .toList();
  }

  private static String show(Done d, Place p) {
    Spot s = p.spot();
    return String.format(
        Locale.ROOT,
        "%s: %s, at the %s, %.0f dB SPL in the octave at %.0f Hz%s",
        d.sound().id(),
        when(s),
        Words.of(s.sensor()),
        s.level(),
        s.band(),
        beside(p));
  }

  /** What was taken off before a second place was found. */
  private static String beside(Place p) {
    return p.without()
        .map(w -> w == Sensor.VOLTAGE ? "the voltage explains" : "the cone's own sound explains")
        .map(w -> ", beside what " + w)
        .orElse("");
  }
}
