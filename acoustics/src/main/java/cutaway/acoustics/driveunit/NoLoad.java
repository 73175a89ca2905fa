package cutaway.acoustics.driveunit;

import java.util.List;

/** No box behind the diaphragm. */
record NoLoad() implements RearLoad {
  @Override
  public String words() {
    return "free air";
  }

  @Override
  public List<String> symbols() {
    return List.of();
  }

  @Override
  public boolean ownFrequency() {
    return false;
  }

  @Override
  public List<RearLoad> alternatives() {
    return List.of(this);
  }

  @Override
  public void at(double[] v, double[] p, double[][] out) {
    throw new IllegalStateException("free air has no admittance");
  }

  @Override
  public void branches(double v, double[] p, double yRe, double yIm, double[] out) {
    throw new IllegalStateException("free air has no admittance");
  }
}
