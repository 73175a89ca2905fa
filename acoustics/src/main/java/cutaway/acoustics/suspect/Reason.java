package cutaway.acoustics.suspect;

import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.Family;

/**
 * What a clue says of a suspect.
 *
 * @param take number of the take, counted from 0
 * @param value of the clue, in its unit
 * @param weight natural logarithm of how many times likelier the clue is with the suspect than with
 *     all others by their chances; above 0 it speaks for the suspect
 */
public record Reason(int take, Family family, Clue clue, double value, double weight) {}
