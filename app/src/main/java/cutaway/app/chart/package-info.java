/**
 * One description of a chart, drawn on paper as SVG and on the page by uPlot. Begin at {@link
 * cutaway.app.chart.Chart}.
 */
@NullMarked
package cutaway.app.chart;

import org.jspecify.annotations.NullMarked;
