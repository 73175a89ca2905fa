package cutaway.bench.finding;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Locale;
import java.util.Optional;

/**
 * A finding as a tester reads it: in the trade's unit, rounded so that the uncertainty keeps two
 * digits where it begins with 1 or 2 and one digit else (JCGM 100:2008, 7.2.6).
 *
 * @param value the value's digits
 * @param uncertainty the standard uncertainty's digits, empty for an exact value
 * @param unit the trade's unit, empty for a pure number
 */
public record Shown(String value, String uncertainty, String unit) {

  private record Scale(String unit, double factor) {}

  /** A finding. */
  public static Shown of(Finding finding) {
    return of(finding.estimate().value(), finding.estimate().sd(), finding.unit());
  }

  /** A value with uncertainty in an SI unit. */
  public static Shown of(double value, double sd, String siUnit) {
    Scale scale = metric(siUnit, value, sd);
    return rounded(value * scale.factor(), sd * scale.factor(), scale.unit());
  }

  /** The same in inch units, where testers use them. */
  public static Optional<Shown> inches(Finding finding) {
    double v = finding.estimate().value();
    double sd = finding.estimate().sd();
    return inchScale(finding.unit()).map(s -> rounded(v * s.factor(), sd * s.factor(), s.unit()));
  }

  private static Scale metric(String unit, double value, double sd) {
    double size = Math.abs(value);
    // a distance known to decimetres was not taken with a rule
    boolean rough = sd > 0.05 && size > 0.3;
    return switch (unit) {
      case "kg" -> size < 0.5 ? new Scale("g", 1e3) : new Scale("kg", 1);
      case "m³" -> new Scale("L", 1e3);
      case "m²" -> size < 1e-4 ? new Scale("mm²", 1e6) : new Scale("cm²", 1e4);
      case "m" -> rough ? new Scale("m", 1) : new Scale("mm", 1e3);
      case "m/N" -> new Scale("mm/N", 1e3);
      case "H" -> new Scale("mH", 1e3);
      case "s" -> new Scale("ms", 1e3);
      case "V" ->
          size < 1e-3
              ? new Scale("µV", 1e6)
              : size < 0.1 ? new Scale("mV", 1e3) : new Scale("V", 1);
      case "Pa" -> new Scale("Pa", 1);
      case "N/m²" -> new Scale("GPa", 1e-9);
      case "1" -> size < 0.01 ? new Scale("%", 100) : new Scale("", 1);
      default -> new Scale(unit, 1);
    };
  }

  private static Optional<Scale> inchScale(String unit) {
    return switch (unit) {
      case "kg" -> Optional.of(new Scale("oz", 1 / 0.028349523125));
      case "m³" -> Optional.of(new Scale("ft³", 1 / 0.028316846592));
      case "m²" -> Optional.of(new Scale("in²", 1 / 0.00064516));
      case "m" -> Optional.of(new Scale("in", 1 / 0.0254));
      default -> Optional.empty();
    };
  }

  private static Shown rounded(double value, double sd, String unit) {
    if (sd <= 0 || !Double.isFinite(sd)) {
      return new Shown(fixed(value, Math.max(0, 3 - magnitude(value))), "", unit);
    }
    double leading = sd / Math.pow(10, magnitude(sd));
    int digits = leading < 2.95 ? 1 : 0;
    int decimals = digits - magnitude(sd);
    return new Shown(fixed(value, decimals), fixed(sd, decimals), unit);
  }

  private static int magnitude(double x) {
    return x == 0 ? 0 : (int) Math.floor(Math.log10(Math.abs(x)));
  }

  /** Fixed notation with so many decimals, or rounded before the point where they are negative. */
  private static String fixed(double x, int decimals) {
    if (decimals >= 0) {
      return signed(String.format(Locale.ROOT, "%." + Math.min(decimals, 12) + "f", x));
    }
    double step = Math.pow(10, -decimals);
    return signed(String.format(Locale.ROOT, "%.0f", Math.rint(x / step) * step));
  }

  /** With a minus sign rather than a hyphen, and none before nought. */
  private static String signed(String number) {
    boolean nought = number.chars().noneMatch(c -> c >= '1' && c <= '9');
    return number.replace("-", nought ? "" : "−");
  }

  /** A number with so many significant digits, written out without a power of ten. */
  public static String digits(double x, int significant) {
    return new BigDecimal(x).round(new MathContext(significant)).toPlainString();
  }

  /** A probability: never quite none nor all. */
  public static String percent(double probability) {
    if (probability < 0.01) {
      return "under 1 %";
    }
    return probability > 0.99
        ? "over 99 %"
        : String.format(Locale.ROOT, "%.0f %%", 100 * probability);
  }

  /** Value ± uncertainty unit. */
  public String text() {
    String pm = uncertainty.isEmpty() ? "" : " ± " + uncertainty;
    return value + pm + (unit.isEmpty() ? "" : " " + unit);
  }
}
