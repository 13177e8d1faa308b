package chainage.host;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/** Hands a file to the platform's own opener. */
public final class Opener {
    /** An opener that has not failed by then has handed the file on. */
    private static final long PATIENCE_SECONDS = 5;

    private Opener() {}

    /** True where there is a screen and an opener. */
    public static boolean isThere(Map<String, String> environment) {
        return !command(environment).isEmpty();
    }

    /** Opens a file; answers what was in the way and what to do instead, or null when nothing was. */
    public static @Nullable String open(Path file, Map<String, String> environment) {
        String instead = "; open it in a browser yourself: " + file.toUri();
        List<String> command = command(environment);
        if (command.isEmpty()) {
            return "there is no screen or no opener here to show the page" + instead;
        }
        try {
            Process process = new ProcessBuilder(
                            command.size() == 1
                                    ? List.of(
                                            command.get(0),
                                            file.toAbsolutePath().toString())
                                    : List.of(
                                            command.get(0),
                                            command.get(1),
                                            file.toAbsolutePath().toString()))
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
            boolean ended = process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS);
            return ended && process.exitValue() != 0 ? command.get(0) + " could not show the page" + instead : null;
        } catch (IOException e) {
            return command.get(0) + " could not be started" + instead;
        } catch (InterruptedException e) {
            return command.get(0) + " was not waited for" + instead;
        }
    }

    private static List<String> command(Map<String, String> environment) {
        String os = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
        if (os.startsWith("windows")) {
            return List.of("rundll32", "url.dll,FileProtocolHandler");
        }
        if (os.startsWith("mac")) {
            return List.of("/usr/bin/open");
        }
        if (environment.getOrDefault("DISPLAY", "").isEmpty()
                && environment.getOrDefault("WAYLAND_DISPLAY", "").isEmpty()) {
            return List.of();
        }
        Path opener = new Machine(environment).find("xdg-open");
        return opener == null ? List.of() : List.of(opener.toString());
    }
}
