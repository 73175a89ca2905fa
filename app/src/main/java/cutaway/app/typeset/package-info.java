/** Symbols with their subscripts, for HTML and SVG. */
@NullMarked
package cutaway.app.typeset;

import org.jspecify.annotations.NullMarked;
