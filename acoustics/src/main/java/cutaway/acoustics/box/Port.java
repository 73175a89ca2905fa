package cutaway.acoustics.box;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.estimate.Estimate;

/**
 * One or several equal ports seen from their geometry.
 *
 * <p>The air in a port swings as a mass ρ(L + end corrections)/S. The corrections are those of a
 * tube at low frequency, in radii of a circle of the same area: 0.6133 free (H. Levine and J.
 * Schwinger, Phys. Rev. 73 (1948)), 0.8216 in a wide flange (A. N. Norris and I. C. Sheng, J. Sound
 * Vib. 135 (1989)), as quoted in secondary copies. A flare counts to half its length and opens the
 * end; a wall closer than one diameter adds to the mass. Both are estimates with a stated spread.
 *
 * @param area cross-section of one port, m²
 * @param length from end to end along the middle of any bend, m
 * @param outer the end outside
 * @param inner the end inside
 * @param count how many
 * @param aspect width over height of a slot, 1 for round and square
 * @param shortening by how much bends make each port shorter than along its middle, m
 */
public record Port(
    Estimate area,
    Estimate length,
    End outer,
    End inner,
    int count,
    double aspect,
    Estimate shortening) {
  /** How an end of a port opens. */
  public enum End {
    /** Free in space. */
    FREE(0.6133, 0.02),
    /** Flush with a wide wall. */
    FLANGED(0.8216, 0.03),
    /** Flared. */
    FLARED(0.70, 0.12),
    /** Free, but with a wall near by across the opening. */
    NEAR_WALL(0.95, 0.15);

    private final double radii;
    private final double sd;

    End(double radii, double sd) {
      this.radii = radii;
      this.sd = sd;
    }

    /** End correction in radii of a circle of the port's area. */
    public Estimate correction() {
      return new Estimate(radii, sd);
    }
  }

  /** Rejects fewer than one port. */
  public Port {
    if (count < 1 || !(area.value() > 0) || !(length.value() >= 0) || !(aspect >= 1)) {
      throw new IllegalArgumentException(
          count + " ports of " + area.value() + " m², " + length.value() + " m long");
    }
  }

  /**
   * A sharp right-angled bend of a flat duct is shorter by (2/π) ln 2 of its width than along its
   * middle (potential flow round a corner, by conformal mapping; checked by finite differences in
   * the tests).
   */
  private static final Estimate SHARP = new Estimate(2 * Math.log(2) / Math.PI, 0.05);

  /** Tubes bend sharply or in a curve, where a curve of one diameter's radius takes off 0.14. */
  private static final Estimate TUBE = new Estimate(0.3, 0.15);

  /** A round port. */
  public static Port round(Estimate diameter, Estimate length, End outer, End inner, int count) {
    double area = Math.PI * diameter.value() * diameter.value() / 4;
    return new Port(
        Estimate.relative(area, 2 * diameter.relativeSd()),
        length,
        outer,
        inner,
        count,
        1,
        Estimate.exact(0));
  }

  /** The same with right-angled bends in each port. */
  public Port bent(int bends) {
    double narrow = Math.sqrt(area.value() / aspect);
    Estimate each = aspect == 1 ? TUBE.times(2 / Math.sqrt(Math.PI)) : SHARP;
    return new Port(area, length, outer, inner, count, aspect, each.times(bends * narrow));
  }

  /** A slot. */
  public static Port slot(
      Estimate width, Estimate height, Estimate length, End outer, End inner, int count) {
    double area = width.value() * height.value();
    double ratio = width.value() / height.value();
    return new Port(
        Estimate.relative(area, Math.hypot(width.relativeSd(), height.relativeSd())),
        length,
        outer,
        inner,
        count,
        Math.max(ratio, 1 / ratio),
        Estimate.exact(0));
  }

  /** Cross-section of all ports together, m². */
  public Estimate totalArea() {
    return area.times(count);
  }

  /** Length with both end corrections, without what bends take off, m. */
  public Estimate effectiveLength() {
    double a = Math.sqrt(area.value() / Math.PI);
    Estimate o = outer.correction();
    Estimate i = inner.correction();
    // the mass at the mouth of a slot is less than that of a circle of its area: slowly varying
    // with aspect, ln-like; 1 at square, about 0.8 at 10:1 (numerical integral in the tests)
    double slot = slotFactor(aspect);
    double ends = (o.value() + i.value()) * a * slot;
    double endsSd = Math.hypot(Math.hypot(o.sd(), i.sd()) * a, ends * area.relativeSd() / 2);
    double sd = Math.hypot(Math.hypot(length.sd(), endsSd), shortening.sd());
    return new Estimate(length.value() - shortening.value() + ends, sd);
  }

  /**
   * End mass of a flat rectangular piston in a flange over that of a square one of the same area.
   * The mutual reactance integral at low frequency has the closed form below (the mean inverse
   * distance within a rectangle of sides w and h).
   */
  static double slotFactor(double aspect) {
    return meanInverseDistance(aspect) / meanInverseDistance(1);
  }

  private static double meanInverseDistance(double aspect) {
    double w = Math.sqrt(aspect);
    double h = 1 / w;
    double d = Math.hypot(w, h);
    double asinhWh = Math.log(w / h + d / h);
    double asinhHw = Math.log(h / w + d / w);
    double body = 2 * (w * w * h * asinhHw + w * h * h * asinhWh);
    double corner = 2.0 / 3 * (w * w * w + h * h * h - d * d * d);
    return (body + corner) / (w * w * h * h);
  }

  /** Acoustic mass of all ports together, kg/m⁴. */
  public Estimate acousticMass(Air air) {
    Estimate l = effectiveLength();
    double value = air.density().value() * l.value() / totalArea().value();
    double sd =
        Math.hypot(Math.hypot(l.relativeSd(), area.relativeSd()), air.density().relativeSd());
    return Estimate.relative(value, sd);
  }

  /** Tuning of a box with this port, Hz: (c/2π) √(S/(V L_eff)). */
  public Estimate tuning(Estimate volume, Air air) {
    Estimate l = effectiveLength();
    double c = air.soundSpeed().value();
    double f = c / (2 * Math.PI) * Math.sqrt(totalArea().value() / (volume.value() * l.value()));
    double half =
        0.5 * Math.hypot(Math.hypot(l.relativeSd(), area.relativeSd()), volume.relativeSd());
    return Estimate.relative(f, Math.hypot(half, air.soundSpeed().relativeSd()));
  }
}
