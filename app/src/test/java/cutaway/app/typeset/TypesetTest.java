package cutaway.app.typeset;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class TypesetTest {
  @Test
  void symbolsGetTheirIndices() {
    assertThat(Typeset.html("f_b and ΔL_1"))
        .isEqualTo("<i>f</i><sub>b</sub> and <i>ΔL</i><sub>1</sub>");
  }

  @Test
  void namesOfFilesStay() {
    assertThat(Typeset.html("knock_left.flac < 3")).isEqualTo("knock_left.flac &lt; 3");
  }
}
