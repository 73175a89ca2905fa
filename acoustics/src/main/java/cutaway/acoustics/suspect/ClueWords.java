package cutaway.acoustics.suspect;

import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.Family;
import java.util.Locale;

/** A clue as a tester would say it, with its figure. */
public final class ClueWords {
  private ClueWords() {}

  /** A clause without a capital or a stop. */
  public static String of(Family family, Clue clue, double v) {
    String words = of(clue, v);
    return switch (family) {
      case MOMENT -> clue == Clue.EXCESS ? words : "in one moment: " + words;
      case MUSIC -> "while music plays: " + words;
      case ELSEWHERE -> "elsewhere in the sweep: " + words;
      case BESIDE ->
          clue == Clue.MARGIN && v < Clue.HEARD
              ? "nothing is left over that the voltage or the cone's own sound does not explain"
              : "of what the voltage or the cone's own sound does not explain: " + words;
      default -> words;
    };
  }

  static String of(Clue clue, double v) {
    return switch (clue) {
      case MARGIN ->
          v < Clue.HEARD
              ? "nothing is left over that stands out"
              : say("what is left over stands %.0f dB above silence", v);
      case OVER_RESONANCE -> say("strongest at %.2f times the drive unit's resonance", times(v));
      case OVER_TUNING -> say("strongest at %.2f times the box's tuning", times(v));
      case OFF_RING ->
          v < 0.08
              ? say("within %.1f %% of a ring of a knocked wall", 100 * (Math.pow(2, v) - 1))
              : say("%.2f octaves off the nearest ring of a knocked wall", v);
      case EXCURSION ->
          v > -2
              ? "strongest where the cone moves farthest"
              : say("there the cone moves %.0f dB less than at its farthest", -v);
      case WIDTH -> say("it reaches over %.1f octaves of the sweep", v);
      case AT_CONE -> place("at the cone", v);
      case AT_PORT -> place("at the port or behind the box", v);
      case AT_WALL -> place("at the wall", v);
      case WALL_OVER_PORT ->
          say(
              v > 0
                  ? "%.0f dB louder at the wall than at the port or behind the box"
                  : "%.0f dB louder at the port or behind the box than at the wall",
              Math.abs(v));
      case UNLIKE -> say("%.0f dB from the loudest microphone to the softest", v);
      case THROUGH_CONE ->
          say(
              v > 0
                  ? "what other microphones hear of it came from the cone, %.0f dB over the rest"
                  : "what other microphones hear of it did not come from the cone, by %.0f dB",
              Math.abs(v));
      case CONE_LATER ->
          Math.abs(v) < 0.05
              ? "the cone's microphone hears it as soon as the others"
              : say(
                  v > 0
                      ? "the cone's microphone hears it %.1f ms later than the best of the others"
                      : "the cone's microphone hears it %.1f ms before the others",
                  Math.abs(v));
      case ONCE -> say("%.0f %% of its power comes and goes once a cycle", 100 * v);
      case TWICE -> say("%.0f %% of its power comes and goes twice a cycle", 100 * v);
      case REPEATS -> say("%.0f %% of it is the same some cycles later", 100 * v);
      case IN_VOLTAGE ->
          v < 4
              ? "nothing of it is in the voltage"
              : say("the voltage holds it too, %.0f dB above its own silence", v);
      case SHAKEN ->
          say(
              v > 0
                  ? "it shakes the wall %.0f dB further out of rest than it is heard"
                  : "it shakes the wall %.0f dB less out of rest than it is heard",
              Math.abs(v));
      case EXCESS ->
          v < Clue.ALONE
              ? "no single moment stands out"
              : say("a single moment stands out by %.0f dB over what lasts", v);
      case PEAKED ->
          say(
              v < 0 ? "smoother than noise, %.1f times as peaked" : "%.1f times as peaked as noise",
              times(v));
      case OUTWARD ->
          "strongest with the cone " + (v > 0.5 ? "out" : v < -0.5 ? "in" : "near its middle");
      case AT_TURNS ->
          v > 0.3
              ? "strongest at the cone's turns"
              : v < -0.3
                  ? "strongest as the cone passes its middle"
                  : "strongest between the cone's turns and its middle";
      case GROWTH -> say("%.0f dB more when played louder", v);
      case COMPRESSION -> say("the voltage loses %.2f dB of gain when loud", Math.max(0, v));
      case WAVERING -> say("the voltage's gain wavers by %.2f dB", v);
      case SILENT -> say("the voltage is gone for %.0f %% of the time", 100 * v);
      case ODD -> say("odd orders of the voltage at %.0f dB", v);
      case EVEN -> say("even orders of the voltage at %.0f dB", v);
      case RISE ->
          say("the voltage's third order changes by %.0f dB over the top three octaves", v);
      case UNFOLLOWED -> say("all but %.0f dB of the voltage follows the music", v);
      case SOUND_WAVERING -> say("the tone's own sound wavers by %.2f dB", v);
      case DROP -> say("the tone's own sound changes by %.1f dB at once", v);
      case MAINS_FIRST -> heard("the mains' fundamental", v);
      case MAINS_ODD -> heard("odd multiples of the mains", v);
      case MAINS_EVEN -> heard("even multiples of the mains", v);
      case MAINS_HIGH ->
          v < 1
              ? "no multiple of the mains stands out above the twelfth"
              : say("%.0f multiples of the mains stand out above the twelfth", v);
      case MAINS_AT_WALL ->
          say(
              v < 0
                  ? "hum %.0f dB softer at the wall than at the cone"
                  : "hum %.0f dB louder at the wall than at the cone",
              Math.abs(v));
      case MAINS_EVEN_AT_WALL ->
          Math.abs(v) < 0.5
              ? "even multiples stand out at the wall as much as odd ones"
              : say(
                  v > 0
                      ? "even multiples stand %.0f dB further out at the wall than odd ones"
                      : "even multiples stand %.0f dB less out at the wall than odd ones",
                  Math.abs(v));
      case MAINS_VOLTAGE -> volts("hum", v);
      case STRAY -> heard("a stray tone", v);
      case STRAY_VOLTAGE -> volts("a stray tone", v);
      case HISS ->
          Math.abs(v) < 0.5
              ? "noise at rest as loud at the wall as at the cone"
              : say(
                  v > 0
                      ? "noise at rest %.0f dB louder at the cone than at the wall"
                      : "noise at rest %.0f dB softer at the cone than at the wall",
                  Math.abs(v));
      case HISS_LEVEL -> say("noise at rest of %.0f dB SPL from 2.8 to 11 kHz at the cone", v);
      case HISS_VOLTAGE -> volts("noise from 2.8 to 11 kHz", v);
      case UNSTEADY -> say("rest is %.0f dB louder at moments than usual", v);
      case CUT_OFF -> say("a microphone rests %.1f times as long at its peaks as a sine", times(v));
      case FROZEN -> say("the longest run of equal samples is %.0f", times(v));
      case LEFT -> left("what was left over", v);
      case MAINS_LEFT -> left("the hum", v);
      case STRAY_LEFT -> left("the stray tone", v);
      case HISS_CHANGE ->
          v < 0
              ? say("noise at rest is %.0f dB louder", -v)
              : say("noise at rest is %.0f dB softer", v);
    };
  }

  private static String say(String pattern, double v) {
    return String.format(Locale.ROOT, pattern, v).replace("-", "−");
  }

  private static double times(double lg) {
    return Math.pow(10, lg);
  }

  private static String place(String where, double v) {
    return v >= 0
        ? say("loudest " + where + ", by %.0f dB", v)
        : say("%.0f dB softer " + where + " than where it is loudest", -v);
  }

  private static String heard(String what, double v) {
    return v > 0 ? say(what + " at %.0f dB SPL", v) : "nothing heard of " + what;
  }

  private static String volts(String what, double v) {
    double millivolts = 1e-3 * Math.pow(10, v / 20);
    String pattern = millivolts < 1 ? "%.2f mV" : millivolts < 10 ? "%.1f mV" : "%.0f mV";
    return v > 0
        ? say(what + " of " + pattern + " in the voltage", millivolts)
        : "nothing of " + what + " in the voltage";
  }

  private static String left(String what, double v) {
    return v < 0.03
        ? what + " is gone"
        : say("of the dB by which " + what + " stood out %.0f %% stay", 100 * v);
  }
}
