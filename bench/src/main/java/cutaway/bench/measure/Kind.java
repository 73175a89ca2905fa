package cutaway.bench.measure;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import javax.measure.MetricPrefix;
import javax.measure.Unit;
import tech.units.indriya.AbstractUnit;
import tech.units.indriya.unit.Units;

/** What kind of quantity a reading is, with the units it may be written in. */
public enum Kind {
  /** Metres. */
  LENGTH("a length", "164 mm", "m", Units.METRE),
  /** Square metres. */
  AREA("an area", "211 cm²", "m²", Units.SQUARE_METRE),
  /** Kilograms. */
  MASS("a mass", "25.0 g", "kg", Units.KILOGRAM),
  /** Cubic metres. */
  VOLUME("a volume", "12.5 L", "m³", Units.CUBIC_METRE),
  /** Ohms. */
  RESISTANCE("a resistance", "10.02 Ω", "Ω", Units.OHM),
  /** Henries. */
  INDUCTANCE("an inductance", "0.8 mH", "H", Units.HENRY),
  /** Kelvin; written in °C it is kept in °C. */
  TEMPERATURE("a temperature", "21 °C", "°C", Units.CELSIUS),
  /** Kelvin. */
  TEMPERATURE_RISE("a rise of temperature", "15 K", "K", Units.KELVIN),
  /** Pascals. */
  PRESSURE("a pressure", "1007 hPa", "Pa", Units.PASCAL),
  /** Hertz. */
  FREQUENCY("a frequency", "40 Hz", "Hz", Units.HERTZ),
  /** Seconds. */
  TIME("a time", "12 ms", "s", Units.SECOND),
  /** Metres per second. */
  SPEED("a speed", "17 m/s", "m/s", Units.METRE_PER_SECOND),
  /** Volts. */
  VOLTAGE("a voltage", "2.83 V", "V", Units.VOLT),
  /** Amperes. */
  CURRENT("a current", "1.5 A", "A", Units.AMPERE),
  /** Metres per second squared. */
  ACCELERATION("an acceleration", "50 m/s²", "m/s²", Units.METRE_PER_SQUARE_SECOND),
  /** Watts. */
  POWER("a power", "100 W", "W", Units.WATT),
  /** A pure number, or a percentage. */
  RATIO("a number or a percentage", "45 %", "1", AbstractUnit.ONE),
  /** Metres per newton. */
  COMPLIANCE("a compliance", "0.8 mm/N", "m/N", Units.METRE.divide(Units.NEWTON)),
  /** Newton seconds per metre, kilograms per second. */
  MECHANICAL_RESISTANCE(
      "a mechanical resistance", "1.8 N·s/m", "N·s/m", Units.KILOGRAM.divide(Units.SECOND)),
  /** Kilograms per metre to the fourth. */
  ACOUSTIC_MASS("an acoustic mass", "78 kg/m⁴", "kg/m⁴", Units.KILOGRAM.divide(Units.METRE.pow(4))),
  /** Tesla metres, newtons per ampere. */
  FORCE_FACTOR("a force factor", "7.2 T·m", "T·m", Units.TESLA.multiply(Units.METRE)),
  /** Kilograms per cubic metre. */
  DENSITY("a density", "720 kg/m³", "kg/m³", Units.KILOGRAM.divide(Units.CUBIC_METRE)),
  /** Pascals, of a modulus of elasticity. */
  STIFFNESS("a modulus", "3.2 GPa", "N/m²", Units.PASCAL),
  /** Pascal seconds per square metre. */
  FLOW_RESISTIVITY(
      "a resistivity to flow",
      "8000 Pa·s/m²",
      "Pa·s/m²",
      Units.PASCAL.multiply(Units.SECOND).divide(Units.SQUARE_METRE)),
  /** Decibels; a number that stays as written. */
  LEVEL("a level", "86 dB", "dB", AbstractUnit.ONE);

  private final String words;
  private final String example;
  private final String symbol;

  @SuppressWarnings("ImmutableEnumChecker") // units are immutable by their contract
  private final Unit<?> unit;

  Kind(String words, String example, String symbol, Unit<?> unit) {
    this.words = words;
    this.example = example;
    this.symbol = symbol;
    this.unit = unit;
  }

  /** In plain words, with its article. */
  public String words() {
    return words;
  }

  /** One way to write it. */
  public String example() {
    return example;
  }

  /** Label of the unit readings of this kind are kept in. */
  public String symbol() {
    return symbol;
  }

  /** The kind whose quantities are kept in an SI unit, as findings name it. */
  public static Optional<Kind> in(String unit) {
    return Arrays.stream(values()).filter(k -> k.symbol.equals(unit)).findFirst();
  }

  /** The unit readings of this kind are kept in. */
  Unit<?> unit() {
    return unit;
  }

  private static final Map<String, Unit<?>> LABELS = labels();

  private static Map<String, Unit<?>> labels() {
    Map<String, Unit<?>> m = new LinkedHashMap<>();
    Unit<?> inch = Units.METRE.multiply(0.0254);
    Unit<?> litre = Units.CUBIC_METRE.divide(1000);
    Unit<?> pound = Units.KILOGRAM.multiply(0.45359237);
    put(m, Units.METRE, "m");
    put(m, MetricPrefix.CENTI(Units.METRE), "cm");
    put(m, MetricPrefix.MILLI(Units.METRE), "mm");
    put(m, MetricPrefix.MICRO(Units.METRE), "µm", "um", "μm");
    put(m, inch, "in", "inch", "inches", "\"", "″");
    put(m, Units.METRE.multiply(0.3048), "ft", "'");
    put(m, Units.SQUARE_METRE, "m²", "m2");
    put(m, Units.SQUARE_METRE.divide(1e4), "cm²", "cm2");
    put(m, Units.SQUARE_METRE.divide(1e6), "mm²", "mm2");
    put(m, inch.pow(2), "in²", "in2");
    put(m, Units.KILOGRAM, "kg");
    put(m, Units.GRAM, "g");
    put(m, MetricPrefix.MILLI(Units.GRAM), "mg");
    put(m, pound, "lb", "lbs");
    put(m, pound.divide(16), "oz");
    put(m, Units.CUBIC_METRE, "m³", "m3");
    put(m, litre, "L", "l", "dm³", "dm3", "litre", "liter");
    put(m, litre.divide(1000), "mL", "ml", "cm³", "cm3");
    put(m, inch.pow(3), "in³", "in3");
    put(m, Units.METRE.multiply(0.3048).pow(3), "ft³", "ft3");
    put(m, Units.OHM, "Ω", "Ω", "ohm", "ohms", "Ohm");
    put(m, Units.OHM.divide(1000), "mΩ", "mohm");
    put(m, Units.OHM.multiply(1000), "kΩ", "kohm");
    put(m, Units.HENRY, "H");
    put(m, Units.HENRY.divide(1000), "mH");
    put(m, Units.HENRY.divide(1e6), "µH", "uH", "μH");
    put(m, Units.SECOND, "s");
    put(m, Units.SECOND.divide(1000), "ms");
    put(m, Units.METRE_PER_SECOND, "m/s");
    put(m, Units.KILOGRAM.divide(Units.SECOND), "N·s/m", "Ns/m", "N s/m", "kg/s");
    put(m, Units.KILOGRAM.divide(Units.METRE.pow(4)), "kg/m⁴", "kg/m4");
    put(m, Units.CELSIUS, "°C", "C", "degC");
    put(m, Units.KELVIN, "K");
    put(m, Units.KELVIN.multiply(5).divide(9).shift(459.67), "°F", "degF");
    put(m, Units.PASCAL, "Pa");
    put(m, Units.PASCAL.multiply(100), "hPa", "mbar");
    put(m, Units.PASCAL.multiply(1000), "kPa");
    put(m, Units.PASCAL.multiply(1e6), "MPa");
    put(m, Units.PASCAL.multiply(1e9), "GPa");
    put(m, Units.KILOGRAM.divide(Units.CUBIC_METRE), "kg/m³", "kg/m3");
    put(m, Units.KILOGRAM.divide(Units.CUBIC_METRE).multiply(1000), "g/cm³", "g/cm3");
    put(
        m,
        Units.PASCAL.multiply(Units.SECOND).divide(Units.SQUARE_METRE),
        "Pa·s/m²",
        "Pas/m2",
        "Pa s/m²",
        "N·s/m⁴",
        "Ns/m4",
        "rayl/m");
    put(m, Units.HERTZ, "Hz");
    put(m, Units.HERTZ.multiply(1000), "kHz");
    put(m, Units.VOLT, "V");
    put(m, Units.VOLT.divide(1000), "mV");
    put(m, Units.AMPERE, "A");
    put(m, Units.AMPERE.divide(1000), "mA");
    put(m, Units.METRE_PER_SQUARE_SECOND, "m/s²", "m/s2");
    put(m, Units.WATT, "W");
    put(m, Units.WATT.divide(1000), "mW");
    put(m, AbstractUnit.ONE, "");
    put(m, AbstractUnit.ONE.divide(100), "%");
    put(m, AbstractUnit.ONE, "dB");
    put(m, Units.METRE.divide(Units.NEWTON), "m/N");
    put(m, MetricPrefix.MILLI(Units.METRE).divide(Units.NEWTON), "mm/N");
    put(m, MetricPrefix.MICRO(Units.METRE).divide(Units.NEWTON), "µm/N", "um/N");
    put(m, Units.TESLA.multiply(Units.METRE), "T·m", "Tm", "T m", "N/A");
    return m;
  }

  private static void put(Map<String, Unit<?>> map, Unit<?> unit, String... labels) {
    for (String label : labels) {
      map.put(label, unit);
    }
  }

  /** The unit a label stands for, or null. */
  static @org.jspecify.annotations.Nullable Unit<?> unitOf(String label) {
    return LABELS.get(label);
  }
}
