package cutaway.bench.sheet;

import com.fasterxml.jackson.databind.JsonNode;
import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.fault.Sensor;
import cutaway.acoustics.stimulus.ExponentialSweep;
import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.acoustics.stimulus.SteppedTones;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.bench.measure.Kind;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.SoundTake.Channel;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Reads what the sheet says of sounds. */
final class SoundReader {
  /** Usual of a small microphone a few cm off, Pa, and of a divider at an amplifier, V. */
  private static final double MICROPHONE = 20;

  private static final double VOLTAGE = 40;
  private static final double OTHER = 1;

  private final SheetReader reader;

  /** Shape of a signal that only its file tells. */
  private static final String MUSIC = "music";

  SoundReader(SheetReader reader) {
    this.reader = reader;
  }

  /** All that is listed. */
  SoundReadings sounds() {
    List<SoundTake> takes =
        IntStream.range(0, reader.at("/takes").size())
            .mapToObj(i -> "/takes/" + i)
            .filter(p -> isSound(reader.at(p)))
            .map(this::sound)
            .toList();
    return new SoundReadings(
        takes,
        reader.positive("/drive-unit/resonance"),
        reader.positive("/box/tuning"),
        distances(),
        reader.positive("/rig/listening-distance"));
  }

  private Map<Sensor, Double> distances() {
    Map<Sensor, Double> out = new EnumMap<>(Sensor.class);
    for (Sensor s : Sensor.values()) {
      if (s.isMicrophone()) {
        reader
            .positive("/rig/distance/" + Words.of(s))
            .ifPresent(r -> out.put(s, r.estimate().value()));
      }
    }
    return out;
  }

  static boolean isSound(JsonNode take) {
    return take.path("what").asText().equals("sound");
  }

  private SoundTake sound(String p) {
    JsonNode take = reader.at(p);
    if (!take.has("sensors")) {
      reader.problem(
          p,
          "the sound '" + take.path("id").asText() + "' lacks 'sensors'",
          "say what each channel hears: 'sensors: [cone, port, wall, voltage]'");
    }
    List<Channel> channels = new ArrayList<>();
    for (JsonNode sensor : take.path("sensors")) {
      channels.add(channel(p, sensor.asText()));
    }
    if (channels.stream().flatMap(c -> c.sensor().stream()).noneMatch(Sensor::isMicrophone)
        && !channels.isEmpty()) {
      reader.problem(p + "/sensors", "no channel is a microphone", "name one: cone, port or wall");
    }
    if (channels.stream().flatMap(c -> c.sensor().stream()).distinct().count()
        < channels.stream().filter(c -> c.sensor().isPresent()).count()) {
      reader.problem(p + "/sensors", "two channels hear the same", "write 'none' for one of them");
    }
    boolean music = take.path("signal").path("shape").asText().equals(MUSIC);
    return new SoundTake(
        take.path("id").asText(),
        take.path("file").asText(),
        take.has("signal") && !music ? signal(p + "/signal") : List.of(),
        music ? music(p + "/signal") : Optional.empty(),
        Words.read(take.path("done").asText(), Intervention.NONE),
        channels,
        take.has("wall") ? Optional.of(take.path("wall").asText()) : Optional.empty());
  }

  private Channel channel(String p, String word) {
    if (word.equals("none")) {
      return new Channel(Optional.empty(), OTHER, true);
    }
    Optional<Reading> own = reader.positive(p + "/full-scale/" + word);
    Optional<Reading> told = own.isPresent() ? own : reader.positive("/rig/full-scale/" + word);
    Sensor sensor = Words.read(word, Sensor.CONE);
    double usual = sensor.isMicrophone() ? MICROPHONE : sensor == Sensor.VOLTAGE ? VOLTAGE : OTHER;
    return new Channel(
        Optional.of(sensor), told.map(r -> r.estimate().value()).orElse(usual), told.isPresent());
  }

  private Optional<String> music(String p) {
    String file = reader.text(p + "/file");
    if (file.isEmpty()) {
      reader.problem(
          p,
          "the music that was played is not named",
          "put its file into the dossier and add 'file: takes/song.flac'");
    }
    return Optional.of(file).filter(f -> !f.isEmpty());
  }

  /** A sweep is as Cutaway writes it, its length a little off what was asked for, or exact. */
  private List<TestSignal> signal(String p) {
    double silence = value(p + "/silence", 0.25);
    List<Double> peaks = each(p + "/level", Kind.LEVEL).map(l -> Math.pow(10, l / 20)).toList();
    if (peaks.stream().anyMatch(l -> l > 1)) {
      reader.problem(
          p + "/level",
          "the level is over full scale",
          "write what was asked of the file, such as '-6 dB'");
    }
    double peak = peaks.isEmpty() ? 0.5 : peaks.get(0);
    List<Double> at = each(p + "/at", Kind.FREQUENCY).toList();
    try {
      return switch (reader.text(p + "/shape")) {
        case "sweep" -> sweeps(p, silence, peak);
        case "tone" ->
            List.of(
                new SteadyTone(
                    required(p, at),
                    peaks.isEmpty() ? List.of(peak) : peaks,
                    value(p + "/lasting", 2),
                    value(p + "/gap", 0.2),
                    silence));
        default -> {
          required(p, at);
          yield List.of(new SteppedTones(at, value(p + "/lasting", 1), silence, peak));
        }
      };
    } catch (IllegalArgumentException e) {
      reader.problem(p, String.valueOf(e.getMessage()), "correct frequencies or times");
      return List.of();
    }
  }

  private List<TestSignal> sweeps(String p, double silence, double peak) {
    double low = value(p + "/from", 15);
    double high = value(p + "/to", 2000);
    double seconds = value(p + "/lasting", 5);
    double exact = seconds / Math.log(high / low);
    double written = ExponentialSweep.of(low, high, seconds, silence).growth();
    TestSignal first = new ExponentialSweep(low, high, written, silence, peak);
    return Math.abs(exact - written) < 1e-6 * exact
        ? List.of(first)
        : List.of(first, new ExponentialSweep(low, high, exact, silence, peak));
  }

  private double required(String p, List<Double> at) {
    if (at.isEmpty()) {
      reader.problem(p, "the tone lacks its frequency", "add 'at: 87 Hz'");
      return 100;
    }
    return at.get(0);
  }

  private double value(String p, double otherwise) {
    return reader.positive(p).map(r -> r.estimate().value()).orElse(otherwise);
  }

  /** One quantity or a list of them. */
  private Stream<Double> each(String p, Kind kind) {
    JsonNode node = reader.at(p);
    Stream<String> places =
        node.isArray()
            ? IntStream.range(0, node.size()).mapToObj(i -> p + "/" + i)
            : node.isTextual() ? Stream.of(p) : Stream.empty();
    return places.flatMap(x -> reader.quantity(x, kind).stream()).map(r -> r.estimate().value());
  }
}
