package chainage.host;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Hands a message on to the rider in the ways that were asked for.
 *
 * @param command for the shell, which gets the message on its standard input; null for none
 * @param desktop whether a notification is to be shown
 */
public record Herald(Machine machine, @Nullable String command, boolean desktop) {
    private static final String TITLE = "chainage";

    /** True where notifications can be shown: the programs that desktops have for it. */
    public static boolean hasDesktop(Machine machine) {
        return machine.find("notify-send") != null || machine.find("osascript") != null;
    }

    /**
     * Hands it on.
     *
     * @return what went wrong, a line each
     */
    public List<String> say(String message) {
        List<String> wrong = new ArrayList<>();
        if (command != null) {
            attempt("the command \"" + command + "\"", () -> run(command, message), wrong);
        }
        if (desktop) {
            attempt("the notification", () -> show(message), wrong);
        }
        return wrong;
    }

    /** True when at least one of the ways that were asked for worked, or none was asked for. */
    public boolean heard(List<String> wrong) {
        int ways = (command == null ? 0 : 1) + (desktop ? 1 : 0);
        return ways == 0 || wrong.size() < ways;
    }

    /** One way of handing on. */
    private interface Way {
        void go() throws IOException;
    }

    private static void attempt(String what, Way way, List<String> wrong) {
        try {
            way.go();
        } catch (IOException e) {
            wrong.add(what + " did not take the night's message: " + e.getMessage());
        }
    }

    private void run(String typed, String message) throws IOException {
        if (machine.find("sh") != null) {
            machine.run(message, "sh", "-c", typed);
        } else {
            machine.run(message, "cmd.exe", "/d", "/s", "/c", typed);
        }
    }

    private void show(String message) throws IOException {
        if (machine.find("notify-send") != null) {
            // Desktops may read the body as marked up (Desktop Notifications Specification, "Markup").
            String body =
                    message.strip().replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
            session().run("", "notify-send", "--app-name=" + TITLE, "--", TITLE, body);
        } else if (machine.find("osascript") != null) {
            machine.run(
                    "",
                    "osascript",
                    "-e",
                    "on run words",
                    "-e",
                    "display notification (item 2 of words) with title (item 1 of words)",
                    "-e",
                    "end run",
                    TITLE,
                    message.strip());
        } else {
            throw new IOException("there is neither notify-send nor osascript");
        }
    }

    /** With the user's own message bus, which cron does not tell of: its usual place is below the runtime folder. */
    private Machine session() throws IOException {
        Map<String, String> environment = new HashMap<>(machine.environment());
        if (!environment.containsKey("DBUS_SESSION_BUS_ADDRESS")
                && machine.home().getFileSystem().supportedFileAttributeViews().contains("unix")
                && Files.isDirectory(machine.home())) {
            Path bus = Path.of("/run/user")
                    .resolve(String.valueOf(Files.getAttribute(machine.home(), "unix:uid")))
                    .resolve("bus");
            if (Files.exists(bus)) {
                environment.put("DBUS_SESSION_BUS_ADDRESS", "unix:path=" + bus);
            }
        }
        return new Machine(environment);
    }
}
