package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.board.Material;
import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.BoxShape;
import cutaway.acoustics.cabinet.Brace;
import cutaway.acoustics.cabinet.Cavity;
import cutaway.acoustics.cabinet.Hole;
import cutaway.acoustics.cabinet.Panel;
import cutaway.acoustics.cabinet.Wall;
import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.Change;
import cutaway.bench.finding.Change.Batten;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Trial;
import cutaway.bench.finding.Trial.WallLine;
import cutaway.bench.result.Evidence;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A solved box on which changes are tried on paper. What does not change is computed once; each
 * wall that is changed has the others condensed the first time.
 */
public final class RemedyBench {
  private static final double LOWEST = 60;
  private static final double HIGHEST = 1000;
  private static final int POINTS = 90;
  private static final int WAVES = 15;

  private static final double LOSS = 0.02;

  /** Relative uncertainty of that: a factor of two. */
  private static final double UNTOLD = 0.5;

  private static final double USUAL_RESONANCE = 300;

  /** Relative uncertainty of the room that something takes; judgement. */
  private static final double LOST = 0.1;

  private final BoxReadings box;
  private final Findings findings;
  private final CabinetGeometry geometry;
  private final Air air;
  private final WallSound.Drive drive;
  private final Optional<RemedyWaves> waves;
  private final List<Board> boards = new ArrayList<>();
  private final List<Wall> walls;
  private final List<Loss> losses = new ArrayList<>();
  private final double[] grid = PredictionExam.grid(LOWEST, HIGHEST, POINTS);
  private final RemedyModes modes;
  private final WallLevels asItIs;

  private RemedyBench(Sheet sheet, Findings findings, Bench bench) {
    this.box = sheet.box().orElseThrow();
    this.findings = findings;
    this.air = Bench.air(sheet);
    double unseen = value("walls.board.thickness", CabinetGeometry.USUAL);
    this.geometry = CabinetGeometry.of(box, unseen).orElseThrow();
    int n = geometry.names().size();
    for (int i = 0; i < n; i++) {
      String name = geometry.names().get(i);
      Optional<Material> told =
          BoardExam.listed(box, name)
              .filter(
                  m ->
                      findings.finding("walls.board.density").isEmpty()
                          || !BoardExam.unknown(box, geometry.names()).contains(name));
      boolean upright = geometry.upright(i);
      double thickness = geometry.thickness()[i];
      boards.add(
          told.map(m -> m.board(thickness, m.density().middle(), m.modulus().middle(), upright))
              .orElseGet(
                  () ->
                      Board.isotropic(
                          thickness,
                          value("walls.board.density", PlainBoard.DENSITY),
                          value("walls.board.modulus", PlainBoard.MODULUS),
                          0.3)));
      losses.add(
          findings
              .finding("walls." + name + ".loss")
              .map(l -> new Loss(l.estimate().value(), l.estimate().relativeSd()))
              .orElse(new Loss(LOSS, UNTOLD)));
    }
    this.walls = BoxWalls.of(geometry, boards, what -> {});
    this.drive = drive(sheet).fitting(walls);
    Evidence evidence = Evidence.of(sheet, Map.of());
    Optional<JointFit> fit = DriveUnitExam.run(sheet.forDriveUnit(), bench, new Results(evidence));
    this.waves =
        fit.filter(f -> !RoomLining.untold(geometry))
            .flatMap(f -> WavesModel.of(sheet.forWaves(), f))
            .map(model -> new RemedyWaves(model, geometry, air));
    this.modes = new RemedyModes(geometry, walls);
    this.asItIs = levels(modes.asItIs(), losses, Change.none(geometry.names().get(0)));
  }

  /**
   * Sets up.
   *
   * @param sheet the sheet
   * @param findings what a solve of it found
   * @param bench its takes
   * @return absent where the walls are not known
   * @throws cutaway.acoustics.cabinet.ImpossibleShapeException where the walls are those of no box
   */
  public static Optional<RemedyBench> of(Sheet sheet, Findings findings, Bench bench) {
    boolean known =
        findings.findings().stream()
            .anyMatch(f -> f.id().startsWith("walls.") && f.id().endsWith(".heard"));
    return sheet.box().isEmpty() || !known
        ? Optional.empty()
        : Optional.of(new RemedyBench(sheet, findings, bench));
  }

  /** The standing waves, absent where nothing can be told of them. */
  Optional<RemedyWaves> waves() {
    return waves;
  }

  private double value(String id, double otherwise) {
    return findings.finding(id).map(f -> f.estimate().value()).orElse(otherwise);
  }

  private WallSound.Drive drive(Sheet sheet) {
    Openings openings = Openings.of(sheet, geometry);
    Optional<BoxShape> room = geometry.inner().room();
    Optional<Cavity> cavity = room.map(r -> Cavity.of(r, WAVES));
    Optional<Hole> flange = openings.cutOut().map(c -> BoxWalls.hole(geometry, openings.wall(), c));
    Optional<Double> massOverArea =
        findings
            .finding("drive-unit.mms")
            .flatMap(
                m ->
                    findings
                        .finding("drive-unit.sd")
                        .map(s -> m.estimate().value() / s.estimate().value()));
    return new WallSound.Drive(
        cavity.map(c -> new SurfacePressures(geometry, c)),
        openings.cone(),
        openings.wall(),
        flange,
        CabinetExam.waveLosses(geometry, cavity, air),
        massOverArea);
  }

  private WallLevels levels(BoxModes of, List<Loss> loss, Change change) {
    WallSound.Drive driven =
        waves.map(w -> drive.damped(w.losses(change, drive.waveLosses().length))).orElse(drive);
    return WallLevels.of(geometry, of, loss, driven, air, grid, open());
  }

  /** What is open besides the losses, as in the walls' exam. */
  private WallLevels.Open open() {
    boolean reaction = drive.flange().isPresent() && drive.massOverArea().isPresent();
    double share = Math.hypot(relative("density"), relative("thickness"));
    for (String wall : geometry.names()) {
      Optional<Material> told = BoardExam.listed(box, wall);
      share = Math.max(share, told.map(m -> WallBoards.spread(m.density())).orElse(0.0));
    }
    return new WallLevels.Open(reaction ? WallLevels.MODEL : WallLevels.UNDRIVEN, share);
  }

  private double relative(String ofBoard) {
    return findings
        .finding("walls.board." + ofBoard)
        .map(f -> f.estimate().relativeSd())
        .orElse(0.0);
  }

  /** Names of the walls. */
  public List<String> walls() {
    return geometry.names();
  }

  /** The wall most likely heard. */
  public String worst() {
    int worst = 0;
    for (int wall = 0; wall < geometry.names().size(); wall++) {
      boolean more = asItIs.worst().get(wall).heard() > asItIs.worst().get(worst).heard();
      worst = more ? wall : worst;
    }
    return geometry.names().get(worst);
  }

  /** Whether the standing waves can be told, so that lining can be tried. */
  public boolean tellsWaves() {
    return waves.isPresent();
  }

  /**
   * Tries a change.
   *
   * @throws cutaway.acoustics.cabinet.ImpossibleShapeException where it does not fit
   */
  public Trial tryOut(Change change) {
    int which = geometry.names().indexOf(change.wall());
    Wall changed = changed(which, change);
    List<Loss> loss = new ArrayList<>(losses);
    loss.set(which, loss(which, change));
    BoxModes of = change.ofWalls() ? modes.changed(which, changed, change.frame()) : modes.asItIs();
    boolean same = !change.ofWalls() && change.linedWall().isEmpty();
    WallLevels after = same ? asItIs : levels(of, loss, change);
    List<WallLine> lines = new ArrayList<>();
    for (int wall = 0; wall < geometry.names().size(); wall++) {
      lines.add(
          new WallLine(
              geometry.names().get(wall), asItIs.worst().get(wall), after.worst().get(wall)));
    }
    double volume = lostVolume(which, change);
    return new Trial(
        change,
        lines,
        new Trial.Levels(boxed(asItIs.grid()), boxed(asItIs.levels()[which])),
        new Trial.Levels(boxed(after.grid()), boxed(after.levels()[which])),
        waves.map(w -> w.lines(change)).orElse(List.of()),
        addedMass(which, changed, change),
        volume,
        tuning(volume));
  }

  private Loss loss(int which, Change change) {
    Board bare = bare(which, change);
    Optional<Material> other = change.material().flatMap(m -> box.cabinet().material(m));
    Optional<WallReadings> damped =
        box.cabinet().wall(geometry.names().get(which)).filter(w -> w.damping().isPresent());
    Loss own =
        other
            .map(m -> new Loss(m.loss().middle(), WallBoards.spread(m.loss())))
            .orElse(losses.get(which));
    if (damped.isPresent() && (other.isPresent() || change.thicker() != 0)) {
      // the sheet that is there damps another board more or less
      double board = other.map(m -> m.loss().middle()).orElse(LOSS);
      double was = BoxWalls.loss(damped.get(), boards.get(which), board);
      double is = BoxWalls.loss(damped.get(), bare, board);
      own =
          other.isPresent()
              ? new Loss(is, BoxWalls.DAMPED_SPREAD)
              : new Loss(
                  own.value() * is / was, Math.max(own.spread(), BoxWalls.DAMPED_SPREAD / 2));
    }
    Loss without = own;
    return change
        .sheet()
        .map(
            kind ->
                new Loss(
                    kind.sheet()
                        .loss(bare, without.value(), change.sheetThickness(), resonance(which)),
                    BoxWalls.DAMPED_SPREAD))
        .orElse(without);
  }

  /** Where a damping sheet is looked at, Hz. */
  private double resonance(int which) {
    double f = asItIs.worst().get(which).frequency();
    return f > 0 ? f : USUAL_RESONANCE;
  }

  private static List<Double> boxed(double[] values) {
    return Arrays.stream(values).boxed().toList();
  }

  /**
   * Heights at which a window brace fits, of those in steps of a twentieth; shares of the box's.
   */
  public List<Double> frameHeights() {
    return modes.frameHeights();
  }

  /**
   * Works out what the next change may need, a part at a time: a tester who moves a slider should
   * not wait. May run beside a trial.
   *
   * @return whether there was anything left
   */
  public boolean prepare() {
    return modes.prepare(geometry.names().indexOf(worst()));
  }

  /** The wall with its change but for a window brace. */
  private Wall changed(int which, Change change) {
    Wall wall = walls.get(which);
    Panel panel = wall.panel();
    Board own = BoxWalls.dressed(geometry, which, bare(which, change));
    Board dressed =
        change
            .sheet()
            .map(k -> k.sheet().on(own, change.sheetThickness(), resonance(which)))
            .orElse(own);
    List<Brace> braces = new ArrayList<>(panel.braces());
    change.batten().ifPresent(b -> braces.add(batten(which, b, change)));
    return wall.with(
        new Panel(
            panel.outline(), dressed, panel.supports(), panel.masses(), panel.cutOuts(), braces));
  }

  /** Its board without a sheet. */
  private Board bare(int which, Change change) {
    Board board = boards.get(which);
    Optional<Material> other = change.material().flatMap(m -> box.cabinet().material(m));
    double thickness = board.thickness() + change.thicker();
    return other
        .map(
            m ->
                m.board(
                    thickness, m.density().middle(), m.modulus().middle(), geometry.upright(which)))
        .orElseGet(
            () ->
                new Board(
                    thickness,
                    board.density(),
                    board.along(),
                    board.across(),
                    board.poisson(),
                    board.inPlaneShear(),
                    board.shearAlong(),
                    board.shearAcross(),
                    board.grain()));
  }

  private Brace batten(int which, Batten batten, Change change) {
    List<Wall> frames = new ArrayList<>(walls.subList(geometry.names().size(), walls.size()));
    change.frame().map(modes::frame).ifPresent(frames::add);
    return RemedyBatten.of(walls.get(which), batten, frames);
  }

  private double battenVolume(int which, Change change) {
    return change
        .batten()
        .map(b -> batten(which, b, change))
        .map(b -> b.to().minus(b.from()).length() * b.width() * b.depth())
        .orElse(0.0);
  }

  private double frameVolume(Change change) {
    return change
        .frame()
        .map(modes::frame)
        .map(f -> WindowBrace.volume(geometry, f, Change.FRAME_WIDTH))
        .orElse(0.0);
  }

  private double wallArea(int which) {
    return walls.get(which).panel().outline().area();
  }

  /** A lining's fibres take no room worth counting; a thicker board grows outwards. */
  private double lostVolume(int which, Change change) {
    double sheet = change.sheet().isPresent() ? wallArea(which) * change.sheetThickness() : 0;
    return battenVolume(which, change) + frameVolume(change) + sheet;
  }

  private double addedMass(int which, Wall changed, Change change) {
    double before = walls.get(which).panel().board().surfaceMass();
    double after = changed.panel().board().surfaceMass();
    return (after - before) * wallArea(which)
        + (battenVolume(which, change) + frameVolume(change)) * PlainBoard.DENSITY;
  }

  /** f_b √(V / (V − lost)); what is open in V and in the loss bears on the change alone. */
  private static Estimate tuning(Estimate fb, Estimate volume, double lost) {
    double left = volume.value() - lost;
    double open = Math.hypot(volume.relativeSd(), LOST) * lost / left / 2;
    double value = fb.value() * Math.sqrt(volume.value() / left);
    return Estimate.relative(value, Math.hypot(fb.relativeSd(), open));
  }

  private Optional<Estimate> tuning(double lost) {
    Optional<Finding> volume = findings.finding("box.volume");
    return findings
        .finding("box.fb")
        .flatMap(fb -> volume.map(v -> tuning(fb.estimate(), v.estimate(), lost)));
  }
}
