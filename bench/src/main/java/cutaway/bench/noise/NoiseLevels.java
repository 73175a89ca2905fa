package cutaway.bench.noise;

import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.fault.AtRest;
import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.Family;
import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.fault.MainsComb;
import cutaway.acoustics.fault.NoiseTake;
import cutaway.acoustics.fault.Place;
import cutaway.acoustics.fault.Sensor;
import cutaway.acoustics.fault.Spot;
import cutaway.acoustics.fault.StrayTone;
import cutaway.acoustics.fault.TakeClues;
import cutaway.acoustics.meter.FrequencyWeighting;
import cutaway.acoustics.meter.PowerSpectrum;
import cutaway.bench.finding.Curve;
import cutaway.bench.noise.NoiseTests.Done;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.SoundReadings;
import cutaway.bench.sheet.SoundTake;
import cutaway.bench.sheet.Words;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** How loud what is left over is, at which microphone, and where it can be shown to others. */
final class NoiseLevels {
  private static final String LEFT_OF_MUSIC =
      "all that comes along one linear path from the music taken out; the rest against silence and"
          + " a ten-thousandth of the music, in octave bands (docs/methods/noise.md)";
  private static final String LEFT_OVER =
      "harmonics taken out in step with the tone's phase; the rest against silence, in octave"
          + " bands (docs/methods/noise.md)";

  private static final String A_WEIGHTED =
      "A-weighted (IEC 61672-1), the room's own noise included; docs/methods/meters.md";
  private static final String A_WEIGHTED_VOLTS =
      "hum, tones and noise together, A-weighted (IEC 61672-1), the recorder's own noise included;"
          + " docs/methods/meters.md";
  private static final String C_WEIGHTED =
      "C-weighted (IEC 61672-1): much more than A-weighted is hum or rumble; docs/methods/meters.md";
  private static final String HUM =
      "multiples of the mains that stand 13 dB out, added; docs/methods/noise.md";
  private static final String HUM_LINES =
      "from the lines of all channels that stand 13 dB out, the higher the finer;"
          + " docs/methods/noise.md";
  private static final String TONE =
      "a line that stays and is no multiple of the mains; docs/methods/noise.md";

  /** Standard uncertainty of a level where full scale is known, and where it is not, dB. */
  private static final double CALIBRATED = 1;

  private static final double UNCALIBRATED = 6;

  /** Standard uncertainty of the mains from two seconds and more (`MainsCombTest`), Hz. */
  private static final double MAINS_OFF = 0.02;

  /** That of a stray tone, which may wander: a third of its lines' spacing, Hz. */
  private static final double TONE_OFF = 1;

  /** So many orders of a hum are told. */
  private static final int TOLD = 3;

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
    if (take.signal().isEmpty()) {
      new Rest(sound.id(), take, clues, sd, basis).tell();
    }
  }

  /** Levels at rest, in the air and in the voltage. */
  private final class Rest {
    private final String id;
    private final NoiseTake take;
    private final TakeClues clues;
    private final double sd;
    private final List<String> basis;

    Rest(String id, NoiseTake take, TakeClues clues, double sd, List<String> basis) {
      this.id = id;
      this.take = take;
      this.clues = clues;
      this.sd = sd;
      this.basis = basis;
    }

    void tell() {
      if (take.channels().containsKey(Sensor.CONE)) {
        PowerSpectrum heard = PowerSpectrum.of(take.channel(Sensor.CONE), take.rate());
        level(
            "rest",
            "Level at rest, A-weighted, in ",
            "L_A",
            FrequencyWeighting.A.level(heard),
            A_WEIGHTED);
        level(
            "rest-low",
            "Level at rest, C-weighted, in ",
            "L_C",
            FrequencyWeighting.C.level(heard),
            C_WEIGHTED);
        clues.rest().ifPresent(this::heard);
      }
      if (take.channels().containsKey(Sensor.VOLTAGE)) {
        PowerSpectrum read = PowerSpectrum.of(take.channel(Sensor.VOLTAGE), take.rate());
        // the level of so many volts is over 20 µV
        double volts =
            FrequencyWeighting.REFERENCE * Math.pow(10, FrequencyWeighting.A.level(read) / 20);
        volts("rest-voltage", "At rest in ", volts, A_WEIGHTED_VOLTS);
        over(Family.MAINS, Clue.MAINS_VOLTAGE)
            .ifPresent(l -> volts("hum-voltage", "Hum in ", 1e-6 * Math.pow(10, l / 20), HUM));
        over(Family.STRAY, Clue.STRAY_VOLTAGE)
            .ifPresent(
                l -> volts("tone-voltage", "Stray tone in ", 1e-6 * Math.pow(10, l / 20), TONE));
      }
    }

    private void heard(AtRest rest) {
      results.curve(
          Curve.of(
              "noise." + id + ".spectrum",
              "With nothing played, at the cone, " + id,
              "Hz",
              "dB",
              rest.spectrum().frequencies(),
              rest.spectrum().levels()));
      hum(rest)
          .ifPresent(
              h -> {
                level("hum", "Hum in ", "L", decibels(h.power(1, 1)), HUM + "; " + orders(rest));
                frequency("mains", "Mains heard in ", h.frequency(), MAINS_OFF, HUM_LINES);
              });
      tone(rest)
          .ifPresent(
              t -> {
                level("tone", "Stray tone in ", "L", decibels(t.amplitude() * t.amplitude()), TONE);
                frequency("tone-frequency", "Stray tone in ", t.frequency(), TONE_OFF, TONE);
              });
    }

    private Optional<Double> over(Family family, Clue clue) {
      return clues.clue(family, clue).filter(l -> l > 0);
    }

    private void level(String name, String title, String symbol, double level, String method) {
      results.add(
          "noise." + id + "." + name,
          title + id + ", at the cone",
          symbol,
          new Estimate(level, sd),
          "dB",
          method,
          basis);
    }

    private void frequency(String name, String title, double value, double off, String method) {
      results.add(
          "noise." + id + "." + name,
          title + id,
          "f",
          new Estimate(value, off),
          "Hz",
          method,
          basis);
    }

    private void volts(String name, String title, double volts, String method) {
      results.add(
          "noise." + id + "." + name,
          title + id + ", at the drive unit",
          "U",
          new Estimate(volts, volts * Math.log(10) / 20 * sd),
          "V",
          method,
          basis);
    }
  }

  /** What is softer than any ear hears is not told. */
  private static Optional<MainsComb> hum(AtRest rest) {
    return rest.hum().filter(h -> decibels(h.power(1, 1)) > 0);
  }

  private static Optional<StrayTone> tone(AtRest rest) {
    return rest.tone().filter(t -> decibels(t.amplitude() * t.amplitude()) > 0);
  }

  private static double decibels(double power) {
    return 10 * Math.log10(power) - 20 * Math.log10(FrequencyWeighting.REFERENCE);
  }

  /** The loudest orders of a hum, with their levels. */
  private static String orders(AtRest rest) {
    MainsComb hum = rest.hum().orElseThrow();
    return rest.orders().stream()
        .limit(TOLD)
        .map(
            k ->
                String.format(
                    Locale.ROOT,
                    "%s at %.0f dB SPL",
                    NoiseTests.hertz(k * hum.frequency()),
                    decibels(Math.pow(hum.amplitude()[k - 1], 2))))
        .collect(Collectors.joining(", "));
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
        .flatMap(
            d ->
                Stream.concat(
                    d.clues().places().stream().map(p -> show(d, p)),
                    d.clues().rest().stream().flatMap(r -> show(d, r))))
        .toList();
  }

  private static Stream<String> show(Done d, AtRest rest) {
    String where = d.sound().id() + ": nothing played, at the cone, ";
    Stream<String> hum = hum(rest).stream().map(h -> where + "hum, " + orders(rest));
    Stream<String> tone =
        tone(rest).stream()
            .map(
                t ->
                    String.format(
                        Locale.ROOT,
                        "%sa tone of %s, %.0f dB SPL",
                        where,
                        NoiseTests.hertz(t.frequency()),
                        decibels(t.amplitude() * t.amplitude())));
    return Stream.concat(hum, tone);
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
