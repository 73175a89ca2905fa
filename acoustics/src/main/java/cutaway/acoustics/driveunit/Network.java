package cutaway.acoustics.driveunit;

import org.hipparchus.complex.Complex;

/**
 * A drive unit in its box at one frequency, taken apart.
 *
 * @param frequency Hz
 * @param voltage what feeds it, V rms
 * @param blocked electrical impedance of source and coil held still, Ω
 * @param source the source's part of that, Ω
 * @param motor Bl, T·m
 * @param mechanical impedance of the moving parts without the box, N·s/m
 * @param area of the piston, m²
 * @param spring acoustic admittance of the air as one spring, m³/(Pa·s)
 * @param leak that of what leaks
 * @param port that of the port or passive radiator
 */
public record Network(
    double frequency,
    Complex voltage,
    Complex blocked,
    double source,
    double motor,
    Complex mechanical,
    double area,
    Complex spring,
    Complex leak,
    Complex port) {}
