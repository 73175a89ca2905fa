package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.Harmonics;
import cutaway.acoustics.stimulus.Tone;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * What the voltage at the drive unit says of the amplifier: whether it follows what was played.
 *
 * @param compression loss of gain from the softest tone to the loudest, dB; absent with one level
 * @param wavering of the gain while a tone stands or glides, standard, dB
 * @param silent share of the time in which the voltage is gone
 * @param odd highest sum of the orders 3, 5, … against the fundamental, dB
 * @param even the same of 2, 4, …
 * @param rise of the third order against the fundamental over a sweep's last three octaves, dB;
 *     absent where nothing glides
 */
record DriveVoltage(
    Optional<Double> compression,
    double wavering,
    double silent,
    double odd,
    double even,
    Optional<Double> rise) {
  /** Voltage under this share of what is usual is none. */
  private static final double GONE = 0.1;

  /** Orders that are summed, as far as the residue follows them. */
  private static final int ORDERS = 12;

  /** Moments next to the ends of a tone hear it come and go. */
  private static final int ENDS = 6;

  /** Rest lasts so long and is so far before the signal, s. */
  private static final double LEAD = 0.05;

  /**
   * Reads it.
   *
   * @return absent where the take has no voltage or no tone of some length
   */
  static Optional<DriveVoltage> of(NoiseTake take, Residue residue) {
    if (!take.channels().containsKey(Sensor.VOLTAGE)) {
      return Optional.empty();
    }
    double[] x = take.channel(Sensor.VOLTAGE);
    double rest = rest(x, take.rate(), residue.begins(), residue.ends());
    List<Track> tracks = new ArrayList<>();
    for (int i = 0; i < residue.tones().size(); i++) {
      Harmonics h = residue.harmonics(Sensor.VOLTAGE, i);
      if (h.size() > 2 * ENDS + 2) {
        tracks.add(new Track(residue.tones().get(i), h, rest));
      }
    }
    if (tracks.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new DriveVoltage(
            compression(tracks),
            tracks.stream().mapToDouble(Track::wavering).max().orElse(0),
            silent(x, take.rate(), tracks),
            tracks.stream().mapToDouble(t -> t.share(3)).max().orElse(-200),
            tracks.stream().mapToDouble(t -> t.share(2)).max().orElse(-200),
            tracks.stream().filter(t -> !t.tone.isSteady()).findFirst().flatMap(Track::rise)));
  }

  /** Mean square of what is there while nothing plays, hum and all, V²; 0 where all of it plays. */
  private static double rest(double[] x, double rate, double begins, double ends) {
    int before = (int) ((begins - LEAD) * rate);
    int after = (int) ((ends + TonesPlayed.SETTLING) * rate);
    double sum = 0;
    int n = 0;
    for (int i = 0; i < x.length; i++) {
      if (i < before || i >= after) {
        sum += x[i] * x[i];
        n++;
      }
    }
    return n < LEAD * rate ? 0 : sum / n;
  }

  private static Optional<Double> compression(List<Track> tracks) {
    Track softest = tracks.get(0);
    Track loudest = tracks.get(0);
    for (Track t : tracks) {
      softest = t.tone.amplitude() < softest.tone.amplitude() ? t : softest;
      loudest = t.tone.amplitude() > loudest.tone.amplitude() ? t : loudest;
    }
    return softest.tone.amplitude() < 0.9 * loudest.tone.amplitude()
        ? Optional.of(softest.gain() - loudest.gain())
        : Optional.empty();
  }

  /** Share of periods whose peak is next to nothing against the usual one. */
  private static double silent(double[] x, double rate, List<Track> tracks) {
    int gone = 0;
    int all = 0;
    for (Track track : tracks) {
      double usual = track.usual();
      for (int k = ENDS; k + ENDS < track.harmonics.size(); k++) {
        double time = track.harmonics.time(k);
        double half = 0.5 / track.tone.frequency(time);
        double peak = 0;
        int last = (int) Math.min(x.length - 1.0, (time + half) * rate);
        for (int i = (int) Math.max(0, (time - half) * rate); i <= last; i++) {
          peak = Math.max(peak, Math.abs(x[i]));
        }
        gone += peak < GONE * usual ? 1 : 0;
        all++;
      }
    }
    return all == 0 ? 0 : (double) gone / all;
  }

  /**
   * One tone's harmonics, its ends left out.
   *
   * @param rest mean square of what is there without it, V²: no more than that is no distortion
   */
  private record Track(Tone tone, Harmonics harmonics, double rest) {
    private double median(int order) {
      double[] sorted = new double[harmonics.size() - 2 * ENDS];
      for (int k = 0; k < sorted.length; k++) {
        sorted[k] = harmonics.amplitude(k + ENDS, order);
      }
      Arrays.sort(sorted);
      return sorted[sorted.length / 2];
    }

    double usual() {
      return median(1);
    }

    /** Of the fundamental against what was played, dB. */
    double gain() {
      return 20 * Math.log10(usual() / tone.amplitude());
    }

    double wavering() {
      double usual = usual();
      double sum = 0;
      int n = 0;
      for (int k = ENDS; k + ENDS < harmonics.size(); k++) {
        double off = 20 * Math.log10(Math.max(1e-3, harmonics.amplitude(k, 1) / usual));
        sum += off * off;
        n++;
      }
      // what is there without it beats with it: its mean square sways the amplitude, at most
      double beats = Math.pow(20 / Math.log(10), 2) * rest / (usual * usual);
      return Math.sqrt(Math.max(0, sum / n - beats));
    }

    /** Highest sum over every second order from one on against the fundamental, dB. */
    double share(int from) {
      double best = 0;
      double least = GONE * usual();
      for (int k = ENDS; k + ENDS < harmonics.size(); k++) {
        double first = harmonics.amplitude(k, 1);
        if (first > least) {
          best = Math.max(best, Math.max(0, sum(k, from) - 2 * rest) / (first * first));
        }
      }
      return 10 * Math.log10(best + 1e-20);
    }

    private double sum(int k, int from) {
      double out = 0;
      for (int h = from; h <= ORDERS; h += 2) {
        double a = harmonics.amplitude(k, h);
        out += a * a;
      }
      return out;
    }

    /** How the third order grows against the fundamental over a sweep's last three octaves, dB. */
    Optional<Double> rise() {
      int last = harmonics.size() - 1 - ENDS;
      double end = tone.frequency(harmonics.time(last));
      int before = last;
      while (before > ENDS && tone.frequency(harmonics.time(before)) > end / 8) {
        before--;
      }
      return before > ENDS ? Optional.of(third(last) - third(before)) : Optional.empty();
    }

    private double third(int k) {
      return 20 * Math.log10((harmonics.amplitude(k, 3) + 1e-12) / harmonics.amplitude(k, 1));
    }
  }
}
