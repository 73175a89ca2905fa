package cutaway.acoustics.driveunit;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.estimate.Estimate;
import java.util.Optional;

/**
 * Single readings that bear on the drive unit.
 *
 * @param air density and sound speed while the takes were made
 * @param pistonDiameter effective diameter of the diaphragm, m
 * @param movingMass a known moving mass with its air load, kg
 * @param dcResistance resistance of the cold coil by meter, Ω
 * @param leads standard uncertainty of a resistance that may lie in series in every take, Ω, absent
 *     where there is no sign of one
 * @param resonanceSpread standard deviation of ln f_s from take to take, absent where takes show
 *     none
 */
public record Readings(
    Air air,
    Optional<Estimate> pistonDiameter,
    Optional<Estimate> movingMass,
    Optional<Estimate> dcResistance,
    Optional<Double> leads,
    Optional<Double> resonanceSpread) {
  /** Nothing but the air. */
  public static Readings of(Air air) {
    return new Readings(
        air,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  /** The same with a piston diameter, m. */
  public Readings withPistonDiameter(Estimate diameter) {
    return new Readings(
        air, Optional.of(diameter), movingMass, dcResistance, leads, resonanceSpread);
  }

  /** The same with a known moving mass, kg. */
  public Readings withMovingMass(Estimate mass) {
    return new Readings(
        air, pistonDiameter, Optional.of(mass), dcResistance, leads, resonanceSpread);
  }

  /** The same with a cold resistance by meter, Ω. */
  public Readings withDcResistance(Estimate resistance) {
    return new Readings(
        air, pistonDiameter, movingMass, Optional.of(resistance), leads, resonanceSpread);
  }

  /** The same without a cold resistance by meter. */
  public Readings withoutDcResistance() {
    return new Readings(air, pistonDiameter, movingMass, Optional.empty(), leads, resonanceSpread);
  }

  /** The same with leads of a standard uncertainty in Ω in every take. */
  public Readings withLeads(double sd) {
    return new Readings(
        air, pistonDiameter, movingMass, dcResistance, Optional.of(sd), resonanceSpread);
  }

  /** The same with takes between which the resonance wandered. */
  Readings withResonanceSpread(double spread) {
    return new Readings(air, pistonDiameter, movingMass, dcResistance, leads, Optional.of(spread));
  }

  /** Area of the diaphragm, m². */
  public Optional<Estimate> pistonArea() {
    return pistonDiameter.map(
        d -> {
          double area = Math.PI * d.value() * d.value() / 4;
          return new Estimate(area, area * 2 * d.relativeSd());
        });
  }
}
