package cutaway.app.chart;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.app.chart.Chart.Kind;
import cutaway.app.chart.Chart.Marker;
import cutaway.app.chart.Chart.Series;
import java.util.List;
import org.junit.jupiter.api.Test;

class SvgChartTest {

  @Test
  void ticksStandAtOneTwoFive() {
    assertThat(new Scale(true, 10, 500, 0, 1).ticks(5))
        .containsExactly(10.0, 20.0, 50.0, 100.0, 200.0, 500.0);
    assertThat(new Scale(false, 0, 48, 0, 1).ticks(5)).containsExactly(0.0, 10.0, 20.0, 30.0, 40.0);
    assertThat(Scale.label(20000)).isEqualTo("20k");
    assertThat(Scale.label(1500)).isEqualTo("1.5k");
    assertThat(Scale.label(-0.5)).isEqualTo("−0.5");
    assertThat(new Scale(true, 10, 1000, 0, 200).at(100)).isEqualTo(100);
  }

  @Test
  void drawsBandCurvePointsMarkerAndLabels() {
    List<Double> x = List.of(10.0, 100.0, 1000.0);
    List<Double> y = List.of(4.0, 30.0, 8.0);
    Chart chart =
        new Chart(
            "c",
            "A <b> title",
            true,
            "frequency, Hz",
            "impedance, Ω",
            List.of(
                new Series(
                    "fit",
                    Kind.LINE,
                    1,
                    true,
                    x,
                    y,
                    List.of(3.0, 29.0, 7.0),
                    List.of(5.0, 31.0, 9.0)),
                new Series("points", Kind.POINTS, 2, false, x, y, List.of(), List.of())),
            List.of(new Marker(100, "f_s"), new Marker(5000, "outside")),
            Double.NaN,
            Double.NaN);
    String svg = SvgChart.of(chart);
    assertThat(svg)
        .contains("class=\"band c1\"", "class=\"curve c1 dashed\"", "class=\"dot c2\"")
        .contains("A &lt;b&gt; title", ">fit</text>", "class=\"marker\"")
        .doesNotContain("outside", "NaN");
    assertThat(svg.split("<circle", -1)).hasSize(4);
  }
}
