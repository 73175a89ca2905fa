package cutaway.acoustics.signal;

import java.util.ArrayList;
import java.util.List;

/** What a first pass over a capture finds: level, offset, clipping, drop-outs. */
public final class CaptureCheck {
  /** Clipped runs closer than this are one stretch, s. */
  private static final double JOIN = 0.05;

  private static final double FULL_SCALE = 0.9995;
  private static final double AUDIBLE = 1e-4;
  private static final int FROZEN = 24;

  private final double[] peak = new double[2];
  private final double[] sum = new double[2];
  private final double[] square = new double[2];
  private final List<Stretch> stretches;
  private final long frames;
  private final long clippedSamples;

  private CaptureCheck(Pass pass, double rate) {
    System.arraycopy(pass.peak, 0, peak, 0, 2);
    System.arraycopy(pass.sum, 0, sum, 0, 2);
    System.arraycopy(pass.square, 0, square, 0, 2);
    this.frames = pass.at;
    this.clippedSamples = pass.clippedSamples;
    this.stretches = joined(pass.within(), rate);
  }

  /** Reads a capture once. */
  public static CaptureCheck of(SoundSource source) {
    Pass pass = new Pass();
    source.stream((block, count) -> pass.accept(block[0], block[1], count));
    pass.finish();
    return new CaptureCheck(pass, source.rate());
  }

  /** Largest absolute sample of a channel (1 or 2), full scale 1. */
  public double peak(int channel) {
    return peak[channel - 1];
  }

  /** Mean of a channel, full scale 1. */
  public double offset(int channel) {
    return frames == 0 ? 0 : sum[channel - 1] / frames;
  }

  /** Root mean square of a channel without its offset, full scale 1. */
  public double rms(int channel) {
    double mean = offset(channel);
    return frames == 0 ? 0 : Math.sqrt(Math.max(0, square[channel - 1] / frames - mean * mean));
  }

  /** Bad stretches in order of time. */
  public List<Stretch> stretches() {
    return stretches;
  }

  /** Number of samples at full scale. */
  public long clippedSamples() {
    return clippedSamples;
  }

  private static List<Stretch> joined(List<Stretch> raw, double rate) {
    List<Stretch> out = new ArrayList<>();
    for (Stretch next : raw) {
      int last = out.size() - 1;
      boolean near =
          last >= 0
              && out.get(last).kind() == next.kind()
              && next.first() - out.get(last).last() < JOIN * rate;
      if (near) {
        Stretch before = out.get(last);
        int channel = before.channel() == next.channel() ? next.channel() : 0;
        long end = Math.max(before.last(), next.last());
        out.set(last, new Stretch(next.kind(), channel, before.first(), end));
      } else {
        out.add(next);
      }
    }
    // one lone sample at full scale is a peak that just fits, not a flattened one
    out.removeIf(s -> s.kind() == Stretch.Kind.CLIPPED && s.length() < 2);
    return List.copyOf(out);
  }

  /** State of the pass. */
  private static final class Pass {
    private final double[] peak = new double[2];
    private final double[] sum = new double[2];
    private final double[] square = new double[2];
    private final double[] held = {Double.NaN, Double.NaN};
    private final long[] heldSince = new long[2];
    private final List<Stretch> found = new ArrayList<>();
    private long clippedSamples;
    private long at;
    private long firstActive = -1;
    private long lastActive = -1;

    void accept(double[] first, double[] second, int count) {
      channel(0, first, count);
      channel(1, second, count);
      at += count;
    }

    private void channel(int c, double[] samples, int count) {
      double most = peak[c];
      double total = 0;
      double power = 0;
      double before = held[c];
      long since = heldSince[c];
      long clipped = 0;
      int firstLoud = -1;
      int lastLoud = -1;
      for (int i = 0; i < count; i++) {
        double x = samples[i];
        double size = Math.abs(x);
        total += x;
        power += x * x;
        if (size > most) {
          most = size;
        }
        if (x != before) {
          long here = at + i;
          if (here - since > 1 || Math.abs(before) >= FULL_SCALE) {
            close(c, before, since, here);
          }
          before = x;
          since = here;
        }
        if (size > AUDIBLE) {
          firstLoud = firstLoud < 0 ? i : firstLoud;
          lastLoud = i;
          clipped += size >= FULL_SCALE ? 1 : 0;
        }
      }
      peak[c] = most;
      sum[c] += total;
      square[c] += power;
      held[c] = before;
      heldSince[c] = since;
      clippedSamples += clipped;
      if (firstLoud >= 0) {
        firstActive = firstActive < 0 ? at + firstLoud : Math.min(firstActive, at + firstLoud);
        lastActive = Math.max(lastActive, at + lastLoud);
      }
    }

    /** Ends a run of equal samples. */
    private void close(int c, double value, long since, long end) {
      if (Math.abs(value) >= FULL_SCALE) {
        found.add(new Stretch(Stretch.Kind.CLIPPED, c + 1, since, end - 1));
      } else if (end - since >= FROZEN && value == 0) {
        found.add(new Stretch(Stretch.Kind.DROPPED, c + 1, since, end - 1));
      }
    }

    void finish() {
      close(0, held[0], heldSince[0], at);
      close(1, held[1], heldSince[1], at);
      found.sort((a, b) -> Long.compare(a.first(), b.first()));
    }

    /**
     * Leaves out zeros before the first and after the last sound: silence, not a fault. A channel
     * at rest is no drop-out either; both at zero at once is.
     */
    List<Stretch> within() {
      List<List<Stretch>> dropped = List.of(dropped(1), dropped(2));
      int[] next = new int[2];
      List<Stretch> out = new ArrayList<>();
      for (Stretch s : found) {
        boolean inside = s.first() > firstActive && s.last() < lastActive;
        if (s.kind() == Stretch.Kind.CLIPPED
            || (inside && meets(s, dropped.get(2 - s.channel()), next, 2 - s.channel()))) {
          out.add(s);
        }
      }
      return List.copyOf(out);
    }

    private List<Stretch> dropped(int channel) {
      return found.stream()
          .filter(s -> s.kind() == Stretch.Kind.DROPPED && s.channel() == channel)
          .toList();
    }

    /** Whether a stretch meets one of the other channel's; both come in order of their start. */
    private static boolean meets(Stretch s, List<Stretch> others, int[] next, int channel) {
      while (next[channel] < others.size() && others.get(next[channel]).last() < s.first()) {
        next[channel]++;
      }
      return next[channel] < others.size() && others.get(next[channel]).first() <= s.last();
    }
  }
}
