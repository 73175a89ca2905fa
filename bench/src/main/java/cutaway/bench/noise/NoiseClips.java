package cutaway.bench.noise;

import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.fault.NoiseClip;
import cutaway.acoustics.fault.NoiseTake;
import cutaway.acoustics.fault.NotCompared;
import cutaway.acoustics.fault.Spot;
import cutaway.acoustics.meter.LevelMatch;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.bench.finding.Suspicion;
import cutaway.bench.noise.NoiseTests.Done;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.result.Evidence;
import cutaway.bench.result.Results;
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
 * it, and the same moment after an intervention, what was played as loud.
 */
public final class NoiseClips {
  static final double SECONDS = 2.5;

  /** Peak of a clip, full scale 1. */
  static final double PEAK = 0.5;

  /** Softer ends, s. */
  private static final double FADE = 0.02;

  private final List<Clip> out = new ArrayList<>();
  private final Map<TestSignal, Reference> references = new HashMap<>();
  private final RestClips rests = new RestClips();

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

  private record Reference(
      String take, NoiseClip clip, double rate, double gain, double leftGain) {}

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
      return Optional.of(files.read(sound))
          .filter(SoundFiles.Read::usable)
          .map(SoundFiles.Read::take);
    } catch (ProblemException e) {
      return Optional.empty();
    }
  }

  private void add(SoundTake sound, NoiseTake take) {
    Optional<TestSignal> signal = take.signal();
    if (signal.isEmpty()) {
      rests.add(sound, take).ifPresent(out::add);
      return;
    }
    if (sound.done() == Intervention.NONE) {
      NoiseClip.of(take, SECONDS).ifPresent(clip -> first(sound, take, signal.get(), clip));
    } else if (references.containsKey(signal.get())) {
      Reference before = references.get(signal.get());
      NoiseClip.of(take, before.clip.spot(), SECONDS)
          .ifPresent(clip -> after(sound, take, clip, before));
    }
  }

  private void first(SoundTake sound, NoiseTake take, TestSignal signal, NoiseClip clip) {
    Reference own =
        new Reference(
            sound.id(),
            clip,
            take.rate(),
            PEAK / most(clip.recording()),
            PEAK / most(clip.leftOver()));
    references.put(signal, own);
    double raised = 20 * Math.log10(own.leftGain / own.gain);
    both(
        sound,
        take,
        clip,
        own,
        1,
        String.format(Locale.ROOT, "raised by %.0f dB against the recording", raised));
  }

  /** As loud as the one before in what was played, so that only the noise differs. */
  private void after(SoundTake sound, NoiseTake take, NoiseClip clip, Reference before) {
    double gain = match(before, clip, take.rate());
    String how =
        String.format(
            Locale.ROOT,
            "brought to the level of %s by %+.1f dB",
            before.take,
            20 * Math.log10(gain));
    both(sound, take, clip, before, gain, how);
  }

  /** By what both have of what was played; recorders that run differently by its power alone. */
  private static double match(Reference before, NoiseClip clip, double rate) {
    double byPower = Math.sqrt(power(before.clip.played()) / power(clip.played()));
    Optional<LevelMatch> match =
        rate == before.rate ? LevelMatch.of(before.clip.played(), clip.played()) : Optional.empty();
    return match.map(m -> 1 / m.gain()).orElse(byPower);
  }

  private static double power(double[] x) {
    double sum = 0;
    for (double v : x) {
      sum += v * v;
    }
    return sum / Math.max(1, x.length) + Double.MIN_NORMAL;
  }

  private void both(
      SoundTake sound, NoiseTake take, NoiseClip clip, Reference r, double gain, String how) {
    int rate = (int) take.rate();
    out.add(
        new Clip(
            name(sound.id(), Part.RECORDING),
            faded(clip.recording(), gain * r.gain, rate),
            rate,
            caption(Part.RECORDING, sound.done(), clip.spot())
                + (sound.done() == Intervention.NONE ? "" : ", " + how)));
    out.add(
        new Clip(
            name(sound.id(), Part.LEFT_OVER),
            faded(clip.leftOver(), gain * r.leftGain, rate),
            rate,
            caption(Part.LEFT_OVER, sound.done(), clip.spot()) + ", " + how));
  }

  /** What is heard of a take. */
  enum Part {
    RECORDING,
    LEFT_OVER
  }

  static String name(String take, Part part) {
    return take + "-" + Words.of(part).replace(' ', '-');
  }

  private static String caption(Part part, Intervention done, Spot spot) {
    return (part == Part.RECORDING ? "the recording" : "what is left over")
        + " at the "
        + Words.of(spot.sensor())
        + (done == Intervention.NONE ? "" : ", " + Words.of(done));
  }

  /** Names and captions of the clips there will be, before any is cut. */
  static List<Suspicion.Sound> offered(List<Done> takes) {
    Map<TestSignal, Spot> before = new HashMap<>();
    List<Suspicion.Sound> out = new ArrayList<>();
    for (Done d : takes) {
      Optional<TestSignal> signal = d.take().signal();
      if (d.clues().rest().isPresent()) {
        out.add(RestClips.offered(d.sound()));
      }
      if (d.untouched()) {
        signal.ifPresent(s -> d.clues().spot().ifPresent(spot -> before.put(s, spot)));
      }
      signal
          .flatMap(s -> d.untouched() ? d.clues().spot() : Optional.ofNullable(before.get(s)))
          .filter(spot -> d.untouched() || isInReach(d))
          .ifPresent(
              spot -> {
                for (Part part : Part.values()) {
                  String id = d.sound().id();
                  out.add(
                      new Suspicion.Sound(
                          name(id, part), id + ": " + caption(part, d.sound().done(), spot)));
                }
              });
    }
    return out;
  }

  private static boolean isInReach(Done d) {
    return d.clues().notCompared().filter(n -> n.why() == NotCompared.Why.OUT_OF_REACH).isEmpty();
  }

  static double most(double[] x) {
    double out = 1e-12;
    for (double v : x) {
      out = Math.max(out, Math.abs(v));
    }
    return out;
  }

  static double[] faded(double[] x, double gain, double rate) {
    double[] out = new double[x.length];
    int n = (int) (FADE * rate);
    for (int i = 0; i < x.length; i++) {
      double share = Math.min(1, Math.min(i, x.length - 1 - i) / (double) n);
      out[i] = gain * x[i] * 0.5 * (1 - Math.cos(Math.PI * share));
    }
    return out;
  }
}
