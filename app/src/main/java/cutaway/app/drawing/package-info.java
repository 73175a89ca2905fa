/**
 * The unit sliced open, to scale, with findings pinned to its parts. Begin at {@link
 * cutaway.app.drawing.CutawayDrawing}.
 */
@NullMarked
package cutaway.app.drawing;

import org.jspecify.annotations.NullMarked;
