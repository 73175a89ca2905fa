package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class OutlineTest {
  private static Outline outline(String text) {
    List<Point> out = new ArrayList<>();
    for (String corner : text.split(" ", -1)) {
      String[] xy = corner.split(",", -1);
      out.add(new Point(Double.parseDouble(xy[0]), Double.parseDouble(xy[1]), 0));
    }
    return new Outline(out);
  }

  /** Square, either way round, triangle, L, U, cross, star, a thin kite. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "0,0 1,0 1,1 0,1",
        "0,1 1,1 1,0 0,0",
        "0,0 1,0 0,1",
        "0,0 2,0 2,1 1,1 1,2 0,2",
        "0,0 3,0 3,2 2,2 2,1 1,1 1,2 0,2",
        "1,0 2,0 2,1 3,1 3,2 2,2 2,3 1,3 1,2 0,2 0,1 1,1",
        "0,3 1,1 3,0 1,-1 0,-3 -1,-1 -3,0 -1,1",
        "0,0 4,0.3 5,0 4,-0.3"
      })
  void isFilledByConvexQuadrilaterals(String text) {
    Outline outline = outline(text);
    for (List<Outline.Quad> quads : List.of(outline.quads(), outline.graded())) {
      double area = 0;
      for (Outline.Quad quad : quads) {
        assertThat(quad.quality()).isPositive();
        area += new Outline(quad.corners()).area();
      }
      assertThat(area).isCloseTo(outline.area(), within(1e-12));
    }
  }

  @Test
  void saysWhichEdgesAreWrong() {
    assertThatThrownBy(() -> outline("0,0 1,1 1,0 0,1"))
        .isInstanceOf(ImpossibleShapeException.class)
        .hasMessageContaining("after corner 1 and after corner 3 cross");
    assertThatThrownBy(() -> outline("0,0 1,0 1,0 0,1")).hasMessageContaining("corners 2 and 3");
    assertThatThrownBy(() -> outline("0,0 1,0")).hasMessageContaining("three corners");
    assertThatThrownBy(() -> new Prism(outline("0,0 1,0 0,1"), 1, 1))
        .hasMessageContaining("does not lie above");
    assertThatThrownBy(() -> EightCorners.rectangular(0.3, 0.4, -0.2))
        .hasMessageContaining("cross or lie flat");
  }
}
