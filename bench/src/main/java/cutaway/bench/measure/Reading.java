package cutaway.bench.measure;

import cutaway.acoustics.estimate.Estimate;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.measure.IncommensurableException;
import javax.measure.Unit;
import javax.measure.UnitConverter;
import org.jspecify.annotations.Nullable;

/**
 * One number read off something.
 *
 * <p>Written as a number, a unit and, after ±, its standard uncertainty: "164 mm ± 2 mm", "10.02 Ω
 * +/- 0.2 %", "3/4 in", "25,0 g". Where no uncertainty is written, the last digit is taken to be
 * rounded: half its step, evenly spread, so its step over √12 (JCGM 100:2008, 4.3.7).
 *
 * @param text as written
 * @param estimate value and standard uncertainty in the SI unit of its kind (°C for temperatures)
 * @param uncertaintyWritten whether the uncertainty was written rather than assumed
 */
public record Reading(String text, Estimate estimate, boolean uncertaintyWritten) {
  private static final Pattern PARTS =
      Pattern.compile("(?<value>[^±]*?)(?:\\s*(?:±|\\+/-|\\+-)\\s*(?<spread>.+))?");
  private static final Pattern NUMBER =
      Pattern.compile(
          "(?<sign>[-+]?)\\s*(?:(?:(?<whole>\\d+)\\s+)?(?<top>\\d+)/(?<bottom>\\d+)"
              + "|(?<decimal>\\d+(?:[.,]\\d+)?(?:[eE][-+]?\\d+)?|[.,]\\d+))"
              + "\\s*(?<unit>.*)");

  private record Amount(double number, double step, String unit) {}

  /**
   * Reads a quantity.
   *
   * @throws UnreadableException with what is wrong and how to write it
   */
  public static Reading parse(String text, Kind kind) {
    Matcher parts = PARTS.matcher(text.strip().replace('−', '-'));
    if (!parts.matches() || parts.group("value").isBlank()) {
      throw unreadable(text, kind, "is not " + kind.words());
    }
    Amount value = amount(parts.group("value").strip(), text, kind);
    Unit<?> unit = unit(value.unit(), text, kind);
    // a rise has no zero: 24 °C of it are 24 K
    double zero = kind == Kind.TEMPERATURE_RISE ? convert(unit, kind, 0, text) : 0;
    double si = convert(unit, kind, value.number(), text) - zero;
    double step = Math.abs(convert(unit, kind, value.number() + value.step(), text) - zero - si);
    String spread = parts.group("spread");
    if (spread == null) {
      return new Reading(text, new Estimate(si, step / Math.sqrt(12)), false);
    }
    Amount half = amount(spread.strip(), text, kind);
    double sd = spread(half, unit, value, si, text, kind);
    if (half.number() < 0) {
      throw unreadable(text, kind, "has an uncertainty below zero");
    }
    if (half.number() == 0) {
      throw unreadable(text, kind, "claims to be exact; no reading is: leave '± 0' away");
    }
    return new Reading(text, new Estimate(si, Math.abs(sd)), true);
  }

  private static double spread(
      Amount half, Unit<?> unit, Amount value, double si, String text, Kind kind) {
    if (half.unit().equals("%") && !value.unit().equals("%")) {
      return si * half.number() / 100;
    }
    if (kind == Kind.TEMPERATURE && (half.unit().equals("K") || half.unit().equals("°C"))) {
      return half.number();
    }
    Unit<?> of = half.unit().isEmpty() ? unit : unit(half.unit(), text, kind);
    // a difference, so that °F and the like lose their zero
    return convert(of, kind, value.number() + half.number(), text)
        - convert(of, kind, value.number(), text);
  }

  private static Amount amount(String part, String text, Kind kind) {
    Matcher m = NUMBER.matcher(part);
    if (!m.matches()) {
      throw unreadable(text, kind, "does not begin with a number");
    }
    double sign = m.group("sign").equals("-") ? -1 : 1;
    String unit = m.group("unit").strip();
    if (m.group("decimal") == null) {
      double bottom = Double.parseDouble(m.group("bottom"));
      if (bottom == 0) {
        throw unreadable(text, kind, "divides by zero");
      }
      double whole = m.group("whole") == null ? 0 : Double.parseDouble(m.group("whole"));
      double number = whole + Double.parseDouble(m.group("top")) / bottom;
      return new Amount(sign * number, 1 / Math.max(16, bottom), unit);
    }
    String decimal = m.group("decimal").replace(',', '.');
    int e = decimal.toLowerCase(Locale.ROOT).indexOf('e');
    String mantissa = e < 0 ? decimal : decimal.substring(0, e);
    int point = mantissa.indexOf('.');
    int digits = point < 0 ? 0 : mantissa.length() - point - 1;
    double exponent = e < 0 ? 0 : Double.parseDouble(decimal.substring(e + 1));
    double number = sign * Double.parseDouble(decimal);
    if (!Double.isFinite(number)) {
      throw unreadable(text, kind, "is too large a number");
    }
    return new Amount(number, Math.pow(10, exponent - digits), unit);
  }

  private static Unit<?> unit(String label, String text, Kind kind) {
    if (label.isEmpty() && kind != Kind.RATIO && kind != Kind.LEVEL) {
      throw unreadable(text, kind, "has no unit");
    }
    @Nullable Unit<?> unit = Kind.unitOf(label);
    if (unit == null) {
      throw unreadable(text, kind, "has the unknown unit '" + label + "'");
    }
    // decibels have no dimension either, but are no ratio as written
    boolean level = label.equals("dB") || (label.isEmpty() && kind == Kind.LEVEL);
    if (!unit.isCompatible(kind.unit()) || level != (kind == Kind.LEVEL)) {
      throw unreadable(text, kind, "is not " + kind.words());
    }
    return unit;
  }

  private static double convert(Unit<?> unit, Kind kind, double number, String text) {
    try {
      UnitConverter converter = unit.getConverterToAny(kind.unit());
      return converter.convert(number);
    } catch (IncommensurableException e) {
      throw unreadable(text, kind, "is not " + kind.words());
    }
  }

  private static UnreadableException unreadable(String text, Kind kind, String what) {
    return new UnreadableException(
        "'" + text + "' " + what, "write " + kind.words() + " like '" + kind.example() + "'");
  }

  /** A text that is no quantity of its kind. */
  public static final class UnreadableException extends RuntimeException {
    private static final long serialVersionUID = 1L;
    private final String what;
    private final String remedy;

    UnreadableException(String what, String remedy) {
      super(what);
      this.what = what;
      this.remedy = remedy;
    }

    /** What is wrong. */
    public String what() {
      return what;
    }

    /** How to write it. */
    public String remedy() {
      return remedy;
    }
  }
}
