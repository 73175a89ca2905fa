/**
 * Who makes a noise: odds of the suspects from the clues of takes, by a network whose likelihoods
 * are counted on an invented population: docs/methods/suspects.md.
 */
package cutaway.acoustics.suspect;
