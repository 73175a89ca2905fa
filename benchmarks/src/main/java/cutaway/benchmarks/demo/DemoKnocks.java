package cutaway.benchmarks.demo;

import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.Brace;
import cutaway.acoustics.cabinet.DampingSheet;
import cutaway.acoustics.cabinet.Enclosure;
import cutaway.acoustics.cabinet.Enclosure.Facet;
import cutaway.acoustics.cabinet.Foot;
import cutaway.acoustics.cabinet.Hole;
import cutaway.acoustics.cabinet.Panel;
import cutaway.acoustics.cabinet.Plane;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Wall;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * Writes the demo's knocks: a box that is lower at its back, its front of one board, five walls of
 * another that the sheet does not name, a batten on the left, a bitumen sheet on the back, four
 * feet, on which it hardly sounds and so is not let move as a whole; tapped with half-sine forces
 * and heard by a sensor stuck on; all invented.
 */
public final class DemoKnocks {
  private static final int RATE = 24000;
  private static final int FINER = 8;
  private static final double SECONDS = 5.8;
  private static final int MODES = 45;
  private static final double WIDTH = 0.25;
  private static final double DEPTH = 0.30;
  private static final double HEIGHT = 0.375;
  private static final double LOWER = 0.345;
  private static final double FRONT = 0.019;
  private static final double OTHERS = 0.0161;
  private static final double SHEET = 0.002;
  private static final double INSET = 0.032;

  /** Where the left is tapped, m from its outer left and lower edges. */
  private static final double[][] LEFT = {
    {0.085, 0.125}, {0.235, 0.125}, {0.085, 0.255}, {0.235, 0.285}, {0.11, 0.19}
  };

  /** The top is tapped on one place only. */
  private static final double[][] TOP = {
    {0.12, 0.12}, {0.12, 0.12}, {0.12, 0.12}, {0.12, 0.12}, {0.12, 0.12}
  };

  private final Random random = new Random(20260915);
  private final Enclosure outer;
  private final BoxModes modes;
  private final double[] losses = new double[MODES];

  private DemoKnocks() {
    double[] by = {FRONT / 2, OTHERS / 2, OTHERS / 2, OTHERS / 2, OTHERS / 2, OTHERS / 2};
    double[] tall = {WIDTH, HEIGHT};
    Enclosure inner = Enclosure.tapered(tall, DEPTH, new double[] {0, WIDTH, 0, LOWER});
    Enclosure middle = inner.grown(by);
    for (int i = 0; i < by.length; i++) {
      by[i] *= 2;
    }
    outer = inner.grown(by);
    List<Wall> walls = new ArrayList<>();
    for (Facet facet : middle.walls()) {
      boolean front = facet.name().equals("front");
      Board board =
          front
              ? Board.isotropic(FRONT, 745, 3.4e9, 0.3)
              : Board.isotropic(OTHERS, 672, 3.15e9, 0.28);
      if (facet.name().equals("back")) {
        board = DampingSheet.Kind.BITUMEN_SHEET.sheet().on(board, SHEET, 300);
      }
      List<Point> corners = facet.corners().stream().map(middle.corners()::get).toList();
      Wall wall = Wall.between(facet.name(), corners, board);
      if (front) {
        Plane plane = wall.plane();
        wall =
            wall.with(
                List.of(
                    new Hole(flat(plane, WIDTH / 2, 0.215), 0.092, 0.104, 2.15),
                    Hole.open(flat(plane, WIDTH / 2, 0.057), 0.037)));
      }
      if (facet.name().equals("left")) {
        wall = braced(wall, facet);
      }
      if (facet.name().equals("bottom")) {
        wall = wall.on(feet(wall.plane(), facet));
      }
      walls.add(wall);
    }
    modes = BoxModes.of(walls, MODES);
    for (int i = 0; i < MODES; i++) {
      losses[i] = 0.016 + 0.012 * random.nextDouble();
    }
  }

  /** With the batten of the sheet. */
  private Wall braced(Wall wall, Facet facet) {
    Panel p = wall.panel();
    Brace batten =
        new Brace(
            onWall(wall.plane(), facet, 0.150, 0.030),
            onWall(wall.plane(), facet, 0.150, 0.330),
            0.018,
            0.030,
            10e9,
            10e9 / 2.6,
            480);
    return wall.with(
        new Panel(p.outline(), p.board(), p.supports(), p.masses(), p.cutOuts(), List.of(batten)));
  }

  /** The sheet's feet: somewhat softer than their material usually is. */
  private List<Foot> feet(Plane plane, Facet facet) {
    double wide = WIDTH + 2 * OTHERS;
    double deep = DEPTH + FRONT + OTHERS;
    List<Foot> out = new ArrayList<>();
    for (double right : new double[] {INSET, wide - INSET}) {
      for (double back : new double[] {INSET, deep - INSET}) {
        out.add(new Foot(onWall(plane, facet, right, back), 0.026, 2.6e5, 5e4));
      }
    }
    return out;
  }

  /** A place from the outer left and lower edges of a wall seen from outside. */
  private Point onWall(Plane plane, Facet facet, double right, double up) {
    Point corner = outer.corners().get(facet.corners().get(0));
    Point p = plane.local(corner.plus(plane.along().times(right)).plus(plane.across().times(up)));
    return new Point(p.x(), p.y(), 0);
  }

  private static Point flat(Plane plane, double x, double z) {
    Point p = plane.local(new Point(x, 0, z));
    return new Point(p.x(), p.y(), 0);
  }

  /** Writes the knocks to the folder named. */
  public static void main(String[] args) throws IOException {
    DemoKnocks knocks = new DemoKnocks();
    knocks.write(Path.of(args[0], "knock-left.wav"), 3, LEFT, new double[] {0.22, 0.25}, false);
    knocks.write(Path.of(args[0], "knock-top.wav"), 5, TOP, new double[] {0.17, 0.18}, true);
  }

  private double deflection(int mode, int wall, double[] at) {
    Facet facet = outer.walls().get(wall);
    Point p = onWall(modes.walls().get(wall).plane(), facet, at[0], at[1]);
    Point u = modes.displacement(mode, wall, p).orElseThrow();
    return u.dot(modes.walls().get(wall).plane().normal());
  }

  private void write(Path file, int wall, double[][] places, double[] heard, boolean doubled)
      throws IOException {
    int n = (int) (SECONDS * RATE * FINER);
    double[][] forces = new double[places.length][n];
    for (int tap = 0; tap < places.length; tap++) {
      double at = 0.55 + 1.0 * tap + 0.05 * random.nextDouble();
      strike(forces[tap], at, 4 + 5 * random.nextDouble());
      if (doubled && tap == 2) {
        strike(forces[tap], at + 0.06, 5);
      }
    }
    double[] sum = new double[n];
    double step = 1.0 / (RATE * FINER);
    for (int mode = 0; mode < MODES; mode++) {
      double own = 2 * Math.PI * modes.frequency(mode);
      double there = deflection(mode, wall, heard);
      double[] force = new double[n];
      for (int tap = 0; tap < places.length; tap++) {
        double gain = there * deflection(mode, wall, places[tap]);
        for (int i = 0; i < n; i++) {
          force[i] += gain * forces[tap][i];
        }
      }
      double q = 0;
      double v = 0;
      // leapfrog: at 200 steps a period and more its error is far below a ten-thousandth
      for (int i = 0; i < n; i++) {
        double a = force[i] - losses[mode] * own * v - own * own * q;
        v += step * a;
        q += step * v;
        sum[i] += a;
      }
    }
    double[] out = new double[n / FINER];
    double peak = 0;
    for (int i = 0; i < out.length; i++) {
      for (int k = 0; k < FINER; k++) {
        out[i] += sum[i * FINER + k] / FINER;
      }
      peak = Math.max(peak, Math.abs(out[i]));
    }
    ByteBuffer b = ByteBuffer.allocate(44 + 2 * out.length).order(ByteOrder.LITTLE_ENDIAN);
    b.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + 2 * out.length);
    b.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
    b.putShort((short) 1).putShort((short) 1).putInt(RATE).putInt(2 * RATE);
    b.putShort((short) 2).putShort((short) 16);
    b.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(2 * out.length);
    double slow = 0;
    for (double value : out) {
      slow = 0.999 * slow + 2e-4 * random.nextGaussian();
      double s = 0.8 * value / peak + 1e-3 * random.nextGaussian() + slow;
      b.putShort((short) Math.rint(32767 * Math.max(-1, Math.min(1, s))));
    }
    Files.write(file, b.array());
  }

  /** A half-sine of 1.5 ms. */
  private static void strike(double[] force, double at, double newtons) {
    double width = 0.0015;
    for (int i = 0; i < force.length; i++) {
      double t = i / (double) (RATE * FINER) - at;
      if (t > 0 && t < width) {
        force[i] += newtons * Math.sin(Math.PI * t / width);
      }
    }
  }
}
