package cutaway.acoustics.board;

import java.util.function.DoubleUnaryOperator;

/**
 * What the boards of one material weigh together.
 *
 * @param mass kg
 * @param uncertainty standard, kg, with all that could not be weighed
 * @param volume of those boards for a thickness (m) of the unknown ones, m³
 */
public record Weighing(double mass, double uncertainty, DoubleUnaryOperator volume) {}
