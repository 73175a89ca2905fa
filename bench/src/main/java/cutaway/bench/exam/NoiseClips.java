package cutaway.bench.exam;

import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.fault.NoiseClip;
import cutaway.acoustics.fault.NoiseTake;
import cutaway.acoustics.fault.Spot;
import cutaway.acoustics.fault.TakeClues;
import cutaway.acoustics.fault.UnitFacts;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.SoundTake;
import cutaway.bench.sheet.Words;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/**
 * Short sounds to play to others: the recording where something stands out, what is left over of
 * it, and the same moment after an intervention at the same gains.
 */
public final class NoiseClips {
  private static final double SECONDS = 2.5;

  /** Peak of a clip, full scale 1. */
  private static final double PEAK = 0.5;

  /** Softer ends, s. */
  private static final double FADE = 0.02;

  private final List<Clip> out = new ArrayList<>();
  private final Map<TestSignal, Reference> references = new HashMap<>();

  /**
   * A sound.
   *
   * @param name of its file, without ending
   * @param samples full scale 1
   * @param rate samples a second
   * @param caption what is heard, and how much it was raised
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  public record Clip(String name, double[] samples, int rate, String caption) {}

  private record Reference(String take, Spot spot, double gain, double leftGain) {}

  private NoiseClips() {}

  /** All that the sounds of a sheet give; none where nothing stands out. */
  public static List<Clip> of(Sheet sheet, Function<String, Path> resolve) {
    NoiseClips clips = new NoiseClips();
    SoundFiles files = new SoundFiles(resolve, new Results(Evidence.of(sheet, Map.of())));
    for (SoundTake sound : sheet.sounds().takes()) {
      take(files, sound).ifPresent(t -> clips.add(sound, t));
    }
    return List.copyOf(clips.out);
  }

  /** What is wrong with one is told by the exam; nothing can be heard in it. */
  private static Optional<NoiseTake> take(SoundFiles files, SoundTake sound) {
    try {
      return Optional.of(files.read(sound).take());
    } catch (ProblemException e) {
      return Optional.empty();
    }
  }

  private void add(SoundTake sound, NoiseTake take) {
    Optional<TestSignal> signal = take.signal();
    if (signal.isEmpty()) {
      return;
    }
    if (sound.done() == Intervention.NONE) {
      UnitFacts unknown = new UnitFacts(Optional.empty(), Optional.empty());
      TakeClues.of(take, unknown, Optional.empty())
          .spot()
          .ifPresent(spot -> first(sound, take, signal.get(), spot));
    } else if (references.containsKey(signal.get())) {
      Reference before = references.get(signal.get());
      NoiseClip.of(take, before.spot, SECONDS)
          .ifPresent(clip -> both(sound, take, clip, before, "at the gain of " + before.take));
    }
  }

  private void first(SoundTake sound, NoiseTake take, TestSignal signal, Spot spot) {
    NoiseClip.of(take, spot, SECONDS)
        .ifPresent(
            clip -> {
              Reference own =
                  new Reference(
                      sound.id(),
                      spot,
                      PEAK / most(clip.recording()),
                      PEAK / most(clip.leftOver()));
              references.put(signal, own);
              double raised = 20 * Math.log10(own.leftGain / own.gain);
              both(
                  sound,
                  take,
                  clip,
                  own,
                  String.format(Locale.ROOT, "raised by %.0f dB against the recording", raised));
            });
  }

  private void both(SoundTake sound, NoiseTake take, NoiseClip clip, Reference r, String raised) {
    String where = "at the " + Words.of(r.spot.sensor());
    String done = sound.done() == Intervention.NONE ? "" : ", " + Words.of(sound.done());
    out.add(
        new Clip(
            sound.id() + "-recording",
            faded(clip.recording(), r.gain, take.rate()),
            (int) take.rate(),
            "the recording " + where + done));
    out.add(
        new Clip(
            sound.id() + "-left-over",
            faded(clip.leftOver(), r.leftGain, take.rate()),
            (int) take.rate(),
            "what is left over " + where + done + ", " + raised));
  }

  private static double most(double[] x) {
    double out = 1e-12;
    for (double v : x) {
      out = Math.max(out, Math.abs(v));
    }
    return out;
  }

  private static double[] faded(double[] x, double gain, double rate) {
    double[] out = new double[x.length];
    int n = (int) (FADE * rate);
    for (int i = 0; i < x.length; i++) {
      double share = Math.min(1, Math.min(i, x.length - 1 - i) / (double) n);
      out[i] = gain * x[i] * 0.5 * (1 - Math.cos(Math.PI * share));
    }
    return out;
  }
}
