package cutaway.app.page;

import cutaway.bench.dossier.Dossier;
import cutaway.bench.noise.NoiseClips;
import cutaway.bench.noise.NoiseClips.Clip;
import cutaway.bench.take.SignalFile;
import java.util.List;
import java.util.Optional;

/** Keeps the sounds cut out of a dossier while it stays as it is. */
final class ClipShelf {
  /** Of a sample. */
  private static final int BYTES = 2;

  private String stamp = "";
  private List<Clip> clips = List.of();

  /** A sound as WAV, as of a stamp; absent where there is none of that name. */
  synchronized Optional<byte[]> wav(String now, Dossier dossier, String name) {
    // a folder that cannot be looked through has the stamp 0: nothing is kept for it
    if (!stamp.equals(now) || now.equals("0")) {
      clips = NoiseClips.of(dossier.sheet(), dossier::resolve);
      stamp = now;
    }
    return clips.stream()
        .filter(c -> name.equals(c.name() + ".wav"))
        .findFirst()
        .map(c -> SignalFile.wav(c.samples(), c.rate(), BYTES));
  }
}
