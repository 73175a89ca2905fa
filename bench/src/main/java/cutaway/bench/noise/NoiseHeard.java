package cutaway.bench.noise;

import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.fault.Audible;
import cutaway.acoustics.hearing.Masking;
import cutaway.bench.measure.Reading;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.SoundReadings;
import cutaway.bench.sheet.Words;
import java.util.List;
import java.util.Locale;

/** Whether what is left over is heard where listeners sit, and how far off. */
final class NoiseHeard {
  /** Of listeners, m, where the sheet does not say. */
  private static final double SEAT = 2;

  /** How well a distance by eye carries a level over to a seat, dB; judgement. */
  private static final double CARRIED = 3;

  private final SoundReadings sounds;
  private final Results results;

  NoiseHeard(SoundReadings sounds, Results results) {
    this.sounds = sounds;
    this.results = results;
  }

  /**
   * Tells it of a take.
   *
   * @param id of the take
   * @param levelSd standard uncertainty of its levels, dB
   */
  void tell(String id, Audible audible, double levelSd) {
    double seat = sounds.listening().map(Reading::estimate).map(Estimate::value).orElse(SEAT);
    double sd = Math.hypot(CARRIED, levelSd);
    Masking there = audible.at(seat, sounds::distance);
    double louder = there.likelihood(sd);
    double softer = there.likelihood(-sd);
    List<String> basis = List.of("takes." + id);
    String method = method(audible);
    results.add(
        "noise." + id + ".heard",
        String.format(Locale.ROOT, "Likelihood that it is heard at %s, %s", metres(seat), id),
        "P",
        new Estimate(there.likelihood(), within((louder - softer) / 2, there.likelihood())),
        "1",
        method
            + String.format(Locale.ROOT, "; best heard at %s", NoiseTests.hertz(there.frequency())),
        basis);
    double reach = audible.reach(sounds::distance, 0);
    double spread =
        (audible.reach(sounds::distance, sd) - audible.reach(sounds::distance, -sd)) / 2;
    results.add(
        "noise." + id + ".reach",
        "Distance up to which half of the listeners hear it, " + id,
        "r",
        new Estimate(reach, spread),
        "m",
        method + "; sound falls by 6 dB for each doubling, from 0.1 to 100 m",
        basis);
  }

  private String method(Audible audible) {
    return String.format(
        Locale.ROOT,
        "against the masked threshold beside what is played and the room's noise (slopes of"
            + " ITU-R BS.1387, ISO 226; docs/methods/hearing.md), at the level played, from the %s"
            + " microphone at %s%s",
        Words.of(audible.noiseAt()),
        metres(sounds.distance(audible.noiseAt())),
        sounds.distances().containsKey(audible.noiseAt()) ? "" : " (not told, usual)");
  }

  private static String metres(double m) {
    return m < 1
        ? String.format(Locale.ROOT, "%.0f cm", 100 * m)
        : String.format(Locale.ROOT, "%.1f m", m).replace(".0 ", " ");
  }

  /** Two standard uncertainties of a chance reach no further than nought and one. */
  private static double within(double sd, double chance) {
    return Math.min(sd, Math.min(chance, 1 - chance) / 2);
  }
}
