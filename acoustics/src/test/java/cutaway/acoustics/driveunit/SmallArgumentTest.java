package cutaway.acoustics.driveunit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;

/** Laws: the series agree with the library wherever either serves. */
class SmallArgumentTest {

  @Property
  void logarithmAndAngleAreThoseOfTheLibrary(
      @ForAll @DoubleRange(min = -0.08, max = 0.08) double x) {
    assertThat(SmallArgument.log(1 + x)).isCloseTo(Math.log(1 + x), within(4e-16));
    assertThat(SmallArgument.angle(x, 1)).isCloseTo(Math.atan2(x, 1), within(4e-16));
    assertThat(SmallArgument.angle(x, -1)).isEqualTo(Math.atan2(x, -1));
  }
}
