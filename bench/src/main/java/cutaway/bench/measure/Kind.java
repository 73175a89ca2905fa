package cutaway.bench.measure;

import java.util.LinkedHashMap;
import java.util.Map;
import javax.measure.MetricPrefix;
import javax.measure.Unit;
import tech.units.indriya.AbstractUnit;
import tech.units.indriya.unit.Units;

/** What kind of quantity a reading is, with the units it may be written in. */
public enum Kind {
  /** Metres. */
  LENGTH("a length", "164 mm", Units.METRE),
  /** Kilograms. */
  MASS("a mass", "25.0 g", Units.KILOGRAM),
  /** Cubic metres. */
  VOLUME("a volume", "12.5 L", Units.CUBIC_METRE),
  /** Ohms. */
  RESISTANCE("a resistance", "10.02 Ω", Units.OHM),
  /** Kelvin; written in °C it is kept in °C. */
  TEMPERATURE("a temperature", "21 °C", Units.CELSIUS),
  /** Pascals. */
  PRESSURE("a pressure", "1007 hPa", Units.PASCAL),
  /** Hertz. */
  FREQUENCY("a frequency", "40 Hz", Units.HERTZ),
  /** Volts. */
  VOLTAGE("a voltage", "2.83 V", Units.VOLT),
  /** Watts. */
  POWER("a power", "100 W", Units.WATT),
  /** A pure number, or a percentage. */
  RATIO("a number or a percentage", "45 %", AbstractUnit.ONE),
  /** Metres per newton. */
  COMPLIANCE("a compliance", "0.8 mm/N", Units.METRE.divide(Units.NEWTON)),
  /** Tesla metres, newtons per ampere. */
  FORCE_FACTOR("a force factor", "7.2 T·m", Units.TESLA.multiply(Units.METRE)),
  /** Decibels; a number that stays as written. */
  LEVEL("a level", "86 dB", AbstractUnit.ONE);

  private final String words;
  private final String example;

  @SuppressWarnings("ImmutableEnumChecker") // units are immutable by their contract
  private final Unit<?> unit;

  Kind(String words, String example, Unit<?> unit) {
    this.words = words;
    this.example = example;
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
    put(m, Units.CELSIUS, "°C", "C", "degC");
    put(m, Units.KELVIN, "K");
    put(m, Units.KELVIN.multiply(5).divide(9).shift(459.67), "°F", "degF");
    put(m, Units.PASCAL, "Pa");
    put(m, Units.PASCAL.multiply(100), "hPa", "mbar");
    put(m, Units.PASCAL.multiply(1000), "kPa");
    put(m, Units.HERTZ, "Hz");
    put(m, Units.HERTZ.multiply(1000), "kHz");
    put(m, Units.VOLT, "V");
    put(m, Units.VOLT.divide(1000), "mV");
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
