package cutaway.acoustics.board;

import cutaway.acoustics.cabinet.AddedMass;
import cutaway.acoustics.cabinet.CutOut;
import cutaway.acoustics.cabinet.Outline;
import java.util.List;
import java.util.function.DoubleFunction;

/**
 * A wall that was knocked on.
 *
 * @param outline its clear span, in its own plane, for a thickness (m) of the unknown board
 * @param cutOuts its openings
 * @param masses what is fixed to it
 * @param frequencies the lowest that were heard, Hz, lowest first
 */
@SuppressWarnings("ArrayRecordComponent")
public record KnockedWall(
    DoubleFunction<Outline> outline,
    List<CutOut> cutOuts,
    List<AddedMass> masses,
    double[] frequencies) {}
