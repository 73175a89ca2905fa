package cutaway.bench.take;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;

/** How many channels a recording must have. */
enum Wanted {
  /** Two, as an impedance take. */
  TWO_CHANNELS,
  /** One or two, as a recording of taps. */
  ONE_OR_TWO,
  /** However many there are, as a recording of several microphones. */
  ALL;

  /** Refuses another number of channels. */
  void check(String name, int channels) {
    if (this == TWO_CHANNELS && channels != 2) {
      throw new ProblemException(
          Problem.of(
              name,
              channels == 1 ? "has one channel" : "has " + channels + " channels",
              "an impedance take needs two: the voltage over resistor and drive unit together, and"
                  + " the voltage over one of them"));
    }
    if (this == ONE_OR_TWO && channels > 2) {
      throw new ProblemException(
          Problem.of(name, "has " + channels + " channels", "save one channel, or two"));
    }
  }
}
