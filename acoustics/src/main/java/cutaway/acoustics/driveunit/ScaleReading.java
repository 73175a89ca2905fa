package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Estimate;

/** A reading that ties the impedance, which knows only ratios, to kilograms. */
sealed interface ScaleReading {
  /** What it is, for messages. */
  String about();

  /** The reading as written: kg or m³. */
  Estimate reading();

  /** The same with another relative uncertainty. */
  ScaleReading withRelativeSd(double relative);

  /**
   * A mass stuck to the diaphragm.
   *
   * @param take index of the take
   * @param id its name
   * @param reading added mass, kg
   */
  record Mass(int take, String id, Estimate reading) implements ScaleReading {
    @Override
    public String about() {
      return "added mass of " + id;
    }

    @Override
    public ScaleReading withRelativeSd(double relative) {
      return new Mass(take, id, Estimate.relative(reading.value(), relative));
    }
  }

  /**
   * A known volume shut behind the diaphragm; speaks only together with the piston area.
   *
   * @param take index of the take
   * @param id its name
   * @param reading air volume of the test box, m³
   */
  record Volume(int take, String id, Estimate reading) implements ScaleReading {
    @Override
    public String about() {
      return "test volume of " + id;
    }

    @Override
    public ScaleReading withRelativeSd(double relative) {
      return new Volume(take, id, Estimate.relative(reading.value(), relative));
    }
  }

  /**
   * A moving mass known from elsewhere.
   *
   * @param reading moving mass with its free-air load, kg
   */
  record MovingMass(Estimate reading) implements ScaleReading {
    @Override
    public String about() {
      return "known moving mass";
    }

    @Override
    public ScaleReading withRelativeSd(double relative) {
      return new MovingMass(Estimate.relative(reading.value(), relative));
    }
  }
}
