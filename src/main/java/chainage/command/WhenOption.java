package chainage.command;

import picocli.CommandLine.Option;

/** When something was done, as several commands ask for it. */
public final class WhenOption {
    @Option(
            names = "--on",
            paramLabel = "WHEN",
            defaultValue = "now",
            description = "when; a date alone is the start of that day (default: now)")
    public String typed = "now";
}
