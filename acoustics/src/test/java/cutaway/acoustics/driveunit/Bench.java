package cutaway.acoustics.driveunit;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.estimate.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;

/** An invented drive unit on an invented bench: makes noisy takes of a known truth. */
final class Bench {
  static final Air AIR = new Air(Estimate.exact(1.2), Estimate.exact(343));

  final Random random;
  double re = 5.6;
  double fs = 44;
  double qms = 5.2;
  double qes = 0.48;
  double mms = 0.021;
  double diameter = 0.134;
  CoilLoss coil = new CoilLoss.OneLoop(2.2e-4, 6e-4, 4.1);
  Suspension suspension = new Suspension.Plain();
  double noise = 0.003;
  int points = 140;

  Bench(long seed) {
    random = new Random(seed);
  }

  /** Draws another drive unit. */
  Bench varied() {
    re = uniform(2.8, 7.5);
    fs = Math.exp(uniform(Math.log(22), Math.log(110)));
    qms = uniform(2, 9);
    qes = uniform(0.25, 0.9);
    mms = Math.exp(uniform(Math.log(0.003), Math.log(0.08)));
    diameter = uniform(0.08, 0.24);
    double l = uniform(1e-4, 4e-4);
    coil =
        random.nextBoolean()
            ? new CoilLoss.OneLoop(l, uniform(1.5, 4) * l, uniform(1.5, 6))
            : new CoilLoss.PowerLaw(uniform(2e-3, 8e-3), uniform(0.62, 0.8));
    noise = uniform(0.001, 0.006);
    suspension =
        switch (random.nextInt(6)) {
          case 0 -> new Suspension.Creep(uniform(0.01, 0.15));
          case 1 -> new Suspension.StiffnessSlope(uniform(0.01, 0.15));
          case 2 -> new Suspension.DampingSlope(uniform(0.05, 0.5));
          default -> new Suspension.Plain();
        };
    return this;
  }

  double uniform(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  double area() {
    return Math.PI * diameter * diameter / 4;
  }

  double cms() {
    return 1 / (Math.pow(2 * Math.PI * fs, 2) * mms);
  }

  double vas() {
    return AIR.stiffness().value() * area() * area() * cms();
  }

  double bl() {
    return Math.sqrt(2 * Math.PI * fs * mms * re / qes);
  }

  /** The truth as a parameter vector of a layout. */
  double[] theta(ModelChoice choice, Layout layout) {
    double[] theta = new double[layout.size];
    theta[Layout.RE] = Math.log(re);
    theta[Layout.FS] = Math.log(fs);
    theta[Layout.QMS] = Math.log(qms);
    theta[Layout.QES] = Math.log(qes);
    for (int i = 0; i < choice.coil().size(); i++) {
      theta[layout.coil + i] = Math.log(choice.coil().values()[i]);
    }
    if (layout.suspension >= 0) {
      theta[layout.suspension] = suspension.shape();
    }
    return theta;
  }

  /** A take with an exact or noisy curve. */
  Take take(
      String id,
      Mounting mounting,
      RearLoad load,
      double addedRatio,
      double alpha,
      double[] loadLogs,
      double noiseLevel) {
    ModelChoice choice = ModelChoice.of(coil, suspension, List.of(load));
    ImpedanceCurve blank = ImpedanceCurve.ofMagnitude(new double[] {1}, new double[] {1});
    List<Take> bench = List.of(new Take(id, blank, mounting));
    Layout layout = new Layout(choice, bench, Readings.of(AIR), false);
    double[] theta = theta(choice, layout);
    Layout.TakeSlots slots = layout.take(0);
    if (slots.addedMass() >= 0) {
      theta[slots.addedMass()] = Math.log(addedRatio);
    }
    if (slots.stiffness() >= 0) {
      theta[slots.stiffness()] = Math.log(alpha);
      System.arraycopy(loadLogs, 0, theta, slots.load(), loadLogs.length);
    }
    TakeModel model = new TakeModel(choice, layout, 0, theta);
    double[] f = new double[points];
    double[] r = new double[points];
    double[] x = new double[points];
    double[] z = new double[2];
    for (int i = 0; i < points; i++) {
      f[i] = 6 * Math.pow(20000.0 / 6, i / (points - 1.0));
      model.at(f[i], z);
      double a = 1 + noiseLevel * random.nextGaussian();
      double b = noiseLevel * random.nextGaussian();
      r[i] = z[0] * a - z[1] * b;
      x[i] = z[0] * b + z[1] * a;
    }
    return new Take(id, ImpedanceCurve.of(f, r, x), mounting);
  }

  Take freeAir() {
    return take("free-air", new Mounting.FreeAir(), new NoLoad(), 0, 0, new double[0], noise);
  }

  /** With a mass whose label is off within its uncertainty. */
  Take withMass(double ratio, double relativeSd) {
    double label = ratio * mms * (1 + relativeSd * random.nextGaussian());
    return take(
        "with-mass",
        new Mounting.AddedMass(Estimate.relative(label, relativeSd)),
        new NoLoad(),
        ratio,
        0,
        new double[0],
        noise);
  }

  Take inBox(RearLoad load, double volume, double... loadValues) {
    double[] logs = new double[loadValues.length];
    for (int i = 0; i < logs.length; i++) {
      logs[i] = Math.log(loadValues[i]);
    }
    return take(
        "in-box", new Mounting.Boxed(load, Optional.empty()), load, 0, vas() / volume, logs, noise);
  }

  Take inTestBox(RearLoad load, double volume, double relativeSd) {
    double label = volume * (1 + relativeSd * random.nextGaussian());
    return take(
        "test-box",
        new Mounting.Boxed(load, Optional.of(Estimate.relative(label, relativeSd))),
        load,
        0,
        vas() / volume,
        new double[0],
        noise);
  }

  Readings readings(double diameterSd) {
    double label = diameter * (1 + diameterSd * random.nextGaussian());
    return Readings.of(AIR).withPistonDiameter(Estimate.relative(label, diameterSd));
  }

  /** Free air and one added mass. */
  List<Take> usual() {
    List<Take> out = new ArrayList<>();
    out.add(freeAir());
    out.add(withMass(uniform(0.4, 1), 0.004));
    return out;
  }
}
