package chainage.command;

import chainage.drivetrain.Gear;
import chainage.drivetrain.Reference;
import chainage.friction.Effort;
import chainage.typed.QuantityParser;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** How hard, in which gear, how fast the cranks turn; the reference rider where nothing is said. */
public final class EffortOptions {
    @Option(names = "--watts", paramLabel = "W", description = "power at the crank, such as 250")
    @Nullable
    public String watts;

    @Option(names = "--gear", paramLabel = "RINGxCOG", description = "teeth of ring and cog, such as 52x15")
    @Nullable
    String gear;

    @Option(names = "--rpm", paramLabel = "RPM", description = "cadence, such as 90")
    @Nullable
    String rpm;

    public boolean stated() {
        return watts != null || gear != null || rpm != null;
    }

    /** The gear that was typed; null for none. */
    @Nullable
    public Gear gear() {
        return gear == null ? null : QuantityParser.gear(gear);
    }

    /** The cadence that was typed; null for none. */
    @Nullable
    public Double rpm() {
        return rpm == null ? null : QuantityParser.number("--rpm", rpm, "rpm", 20, 250);
    }

    public Effort effort(Reference reference) {
        return new Effort(
                watts == null ? reference.watts() : QuantityParser.number("--watts", watts, "W", 10, 2500),
                Objects.requireNonNullElse(gear(), reference.gear()),
                Objects.requireNonNullElse(rpm(), reference.rpm()));
    }
}
