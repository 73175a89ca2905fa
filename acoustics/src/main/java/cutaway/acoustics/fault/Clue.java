package cutaway.acoustics.fault;

/**
 * What is read off a take to weigh suspects by; each a number, absent where the take cannot tell.
 */
public enum Clue {
  /** What is left over, against silence, where it stands out most, dB. */
  MARGIN,
  /** Lg of the tone's frequency there over the drive unit's resonance. */
  OVER_RESONANCE,
  /** Lg of the same over the box's tuning. */
  OVER_TUNING,
  /** Octaves from it to the nearest ring of a knocked wall. */
  OFF_RING,
  /** How far the cone moves at it, against the farthest in the take, dB. */
  EXCURSION,
  /** Width in the sweep where it stays within 10 dB of that, octaves. */
  WIDTH,
  /** At the cone's microphone over the loudest of the others, dB. */
  AT_CONE,
  /** At the port's or behind the box, over the loudest of the others, dB. */
  AT_PORT,
  /** At the wall's, over the loudest of the others, dB. */
  AT_WALL,
  /** At the wall's over the port's or that behind the box, dB. */
  WALL_OVER_PORT,
  /** From the loudest microphone to the softest, dB: little where it comes from afar. */
  UNLIKE,
  /** Of what another microphone hears of it, what the cone's explains over the rest, dB. */
  THROUGH_CONE,
  /** How much later the cone's microphone hears it than the best of the others, ms. */
  CONE_LATER,
  /** Share of its power that comes and goes once a cycle. */
  ONCE,
  /** Share that comes and goes twice. */
  TWICE,
  /** Share that is the same some cycles later. */
  REPEATS,
  /** Lg of its peakedness over that of noise. */
  PEAKED,
  /** From −1, strongest with the cone in, to 1, out: cosine of the angle once a cycle. */
  OUTWARD,
  /** From −1, strongest while the cone passes the middle, to 1, at its turns: of twice a cycle. */
  AT_TURNS,
  /** How the margin grows from a tone's softest level to its loudest, dB. */
  GROWTH,
  /** The same moment and band of the voltage over its own silence, dB; 0 where nothing is there. */
  IN_VOLTAGE,
  /** At an accelerometer over its own silence, against the best microphone over its own, dB. */
  SHAKEN,
  /** How far the loudest single moment stands out over what lasts, dB. */
  EXCESS,
  /** Loss of gain of the voltage with level, dB. */
  COMPRESSION,
  /** Wavering of the voltage's gain, dB. */
  WAVERING,
  /** Share of the time in which the voltage is gone. */
  SILENT,
  /** Odd orders of the voltage, dB. */
  ODD,
  /** Even orders of the voltage, dB. */
  EVEN,
  /** Growth of the voltage's third order over the last octaves of a sweep, dB. */
  RISE,
  /** What of the voltage does not follow the music along a linear path, against the whole, dB. */
  UNFOLLOWED,
  /** Wavering of the sound's fundamental at the cone while a tone stands, dB. */
  SOUND_WAVERING,
  /** The fastest change of that fundamental while a tone sounds, dB from moment to moment. */
  DROP,
  /** Mains at rest: its first order at the cone, dB SPL; 0 where it is not clear. */
  MAINS_FIRST,
  /** Its odd orders from the third on, likewise. */
  MAINS_ODD,
  /** Its even orders, likewise. */
  MAINS_EVEN,
  /** How many orders over the twelfth are clear. */
  MAINS_HIGH,
  /** Mains at the wall over that at the cone, dB. */
  MAINS_AT_WALL,
  /** How much further even orders stand out at the wall against the cone than odd ones, dB. */
  MAINS_EVEN_AT_WALL,
  /** Mains in the voltage, dB over 1 µV; 0 where it is not clear. */
  MAINS_VOLTAGE,
  /** The strongest stray tone, dB SPL; 0 where there is none. */
  STRAY,
  /** The strongest stray tone of the voltage, dB over 1 µV; 0 where there is none. */
  STRAY_VOLTAGE,
  /** Noise from 2.8 to 11 kHz at rest, at the cone over the wall, dB. */
  HISS,
  /** That noise at the cone, dB SPL. */
  HISS_LEVEL,
  /** The same noise in the voltage, dB over 1 µV. */
  HISS_VOLTAGE,
  /** Unsteadiness at rest: loudest against usual moments from 350 Hz up, dB. */
  UNSTEADY,
  /** Lg of the longest rest of a microphone at its highest or lowest, against that of the tone. */
  CUT_OFF,
  /** Lg of the longest run of equal samples of a microphone. */
  FROZEN,
  /** Share of the margin, in dB, that an intervention leaves. */
  LEFT,
  /** Share of the mains' level at the cone, over 0 dB SPL, that one leaves. */
  MAINS_LEFT,
  /** The same of the strongest stray tone. */
  STRAY_LEFT,
  /** What one takes off the noise from 2.8 to 11 kHz at the cone, dB. */
  HISS_CHANGE;

  /** A margin under this is of something that does not stand out, dB. */
  public static final double HEARD = 5;

  /** A moment that stands out by less over what lasts is none by itself, dB. */
  public static final double ALONE = 6;

  /** One for all that tell the same: which microphone hears it loudest. */
  public Clue subject() {
    return switch (this) {
      case AT_PORT, AT_WALL, WALL_OVER_PORT, UNLIKE -> AT_CONE;
      default -> this;
    };
  }
}
