package cutaway.bench.result;

import cutaway.bench.finding.Fingerprint;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.Mount;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import cutaway.bench.sheet.Sheet.TakeEntry;
import cutaway.bench.sheet.SoundTake;
import cutaway.bench.sheet.Words;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * Content hash of everything a finding may rest on, by its id: a reading as written, a take by its
 * files and its set-up.
 */
public final class Evidence {
  private final Map<String, String> hashes = new TreeMap<>();

  private Evidence() {}

  /**
   * The evidence of a sheet.
   *
   * @param files content hash of every file that the sheet names, by its path there
   */
  public static Evidence of(Sheet sheet, Map<String, String> files) {
    Evidence evidence = new Evidence();
    evidence.put("air", Optional.of(sheet.air()));
    var unit = sheet.driveUnit();
    evidence.put("drive-unit.piston-diameter", unit.pistonDiameter());
    evidence.put("drive-unit.moving-mass", unit.movingMass());
    evidence.put("drive-unit.dc-resistance", unit.dcResistance());
    evidence.put("drive-unit.displaced-volume", unit.displacedVolume());
    evidence.put("drive-unit.mass", unit.mass());
    evidence.put("drive-unit.height", unit.height());
    evidence.put("drive", Optional.of(sheet.drive()));
    sheet.box().ifPresent(evidence::put);
    for (TakeEntry take : sheet.takes()) {
      evidence.put(sheet, take, files);
    }
    for (SoundTake sound : sheet.sounds().takes()) {
      List<String> parts = new ArrayList<>(List.of(sound.toString()));
      sound.files().forEach(f -> parts.add(files.getOrDefault(f, "")));
      evidence.hashes.put("takes." + sound.id(), Fingerprint.of(parts));
    }
    return evidence;
  }

  private void put(BoxReadings box) {
    put("box.inner", box.inner());
    put("box.displaced", box.displaced());
    put("box.wall", box.wall());
    put("box.port", box.port());
    put("box.passive-radiator", box.radiator());
    put("box.mass", box.mass());
    put("box.amplifier-mass", box.cabinet().amplifierMass());
    put("box.hardware-mass", box.cabinet().hardwareMass());
    put("box.feet", box.cabinet().feet());
    put("box.board-density", box.cabinet().boardDensity());
    put(
        "box.size",
        Optional.of(
            List.of(
                box.inner(),
                box.outer(),
                box.wall(),
                box.baffle(),
                box.cabinet().back(),
                box.cabinet().corners(),
                box.cabinet().outline())));
    put(
        "box.walls",
        Optional.of(
            List.of(
                box.cabinet().walls(), box.cabinet().windowBraces(), box.cabinet().materials())));
  }

  private void put(Sheet sheet, TakeEntry take, Map<String, String> files) {
    List<String> parts = new ArrayList<>();
    parts.add(take.toString());
    if (take.mount() == Mount.BOX) {
      parts.add(sheet.box().map(b -> Words.of(b.loading())).orElse(""));
    }
    parts.add(files.getOrDefault(take.file(), ""));
    take.calibration().ifPresent(c -> parts.add(files.getOrDefault(c.file(), "")));
    if (take.isRecording()) {
      parts.add(sheet.resistor().map(Reading::text).orElse(""));
      parts.add(sheet.mains() + " Hz");
    }
    hashes.put("takes." + take.id(), Fingerprint.of(parts));
  }

  /** A record of the sheet stands for what was written: it holds the text of every reading. */
  private void put(String id, Optional<?> written) {
    written.ifPresent(w -> hashes.put(id, Fingerprint.of(w.toString())));
  }

  /** All hashes by id. */
  public Map<String, String> hashes() {
    return Map.copyOf(hashes);
  }

  /** Hash of one piece of evidence. */
  public String of(String id) {
    String hash = hashes.get(id);
    if (hash == null) {
      throw new IllegalStateException("nothing in the sheet goes by the name " + id);
    }
    return hash;
  }

  /** One hash over several pieces: of the lines "id hash", in the order given. */
  public String of(List<String> ids) {
    return Fingerprint.of(
        ids.stream().map(id -> id + " " + of(id) + "\n").collect(Collectors.joining()));
  }
}
