package chainage.host;

import java.time.LocalTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What to run every night.
 *
 * @param command the program and its arguments, each as it is, unquoted; paths absolute; not empty, and no line breaks,
 *     which no scheduler's file could hold
 * @param time local, to the minute
 * @param javaHome where Java is; empty when it is found without
 */
public record Job(List<String> command, LocalTime time, String javaHome) {
    /** By this our line of a crontab is told from the rest. */
    public static final String CRON_MARK = "# chainage-nightly";

    public static final String SERVICE = "chainage-nightly.service";
    public static final String TIMER = "chainage-nightly.timer";
    public static final String LAUNCHD = "chainage.nightly";

    public Job {
        command = List.copyOf(command);
        if (command.isEmpty()) {
            throw new IllegalArgumentException("nothing to run");
        }
        for (String c : command) {
            if (c.chars().anyMatch(Character::isISOControl)) {
                throw new IllegalArgumentException("a control character in " + c);
            }
        }
    }

    /** Both unit files by name (systemd.service(5), systemd.timer(5)); a night missed while off is made up for. */
    public Map<String, String> systemd() {
        StringBuilder start = new StringBuilder();
        // The first word is no place for systemd's own quoting tricks, so env runs the program.
        start.append("/usr/bin/env");
        if (!javaHome.isEmpty()) {
            start.append(' ').append(systemdWord("JAVA_HOME=" + javaHome));
        }
        command.forEach(c -> start.append(' ').append(systemdWord(c)));
        Map<String, String> units = new LinkedHashMap<>();
        units.put(
                SERVICE,
                String.join(
                        "\n",
                        "[Unit]",
                        "Description=chainage: what is new among the exported rides",
                        "",
                        "[Service]",
                        "Type=oneshot",
                        "ExecStart=" + start,
                        // A refused file is told in the summary; the night's work itself went well.
                        "SuccessExitStatus=65",
                        "Nice=10",
                        ""));
        units.put(
                TIMER,
                String.join(
                        "\n",
                        "[Unit]",
                        "Description=chainage: every night",
                        "",
                        "[Timer]",
                        "OnCalendar=*-*-* " + time + ":00",
                        "Persistent=true",
                        "",
                        "[Install]",
                        "WantedBy=timers.target",
                        ""));
        return units;
    }

    /** A word within double quotes, with what systemd itself replaces (specifiers, variables) said twice. */
    private static String systemdWord(String word) {
        return '"'
                + word.replace("\\", "\\\\")
                        .replace("\"", "\\\"")
                        .replace("%", "%%")
                        .replace("$", "$$")
                + '"';
    }

    /** One line of a crontab (crontab(5)); what it prints, cron mails. */
    public String cron() {
        List<String> words = new ArrayList<>();
        if (!javaHome.isEmpty()) {
            words.add("JAVA_HOME=" + shellWord(javaHome));
        }
        command.forEach(c -> words.add(shellWord(c)));
        // An unquoted per cent sign would end the line even within quotes.
        return time.getMinute() + " " + time.getHour() + " * * * "
                + String.join(" ", words).replace("%", "\\%") + " " + CRON_MARK;
    }

    private static String shellWord(String word) {
        return word.matches("[A-Za-z0-9_./:=,+-]+") ? word : "'" + word.replace("'", "'\\''") + "'";
    }

    /** A crontab with our line in it, in place of an earlier one. */
    public String crontabWith(String crontab) {
        String rest = crontabWithout(crontab);
        return rest + (rest.isEmpty() || rest.endsWith("\n") ? "" : "\n") + cron() + "\n";
    }

    /** A crontab without our line; every other line as it is. */
    public static String crontabWithout(String crontab) {
        StringBuilder kept = new StringBuilder();
        for (String line : crontab.split("(?<=\n)", -1)) {
            if (!line.stripTrailing().endsWith(CRON_MARK)) {
                kept.append(line);
            }
        }
        return kept.toString();
    }

    /** A property list (launchd.plist(5)). */
    public String launchd() {
        StringBuilder b = new StringBuilder();
        b.append("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n")
                .append("<plist version=\"1.0\">\n<dict>\n")
                .append("  <key>Label</key><string>" + LAUNCHD + "</string>\n")
                .append("  <key>ProgramArguments</key>\n  <array>\n");
        command.forEach(c -> b.append("    <string>").append(xml(c)).append("</string>\n"));
        b.append("  </array>\n");
        if (!javaHome.isEmpty()) {
            b.append("  <key>EnvironmentVariables</key>\n  <dict><key>JAVA_HOME</key><string>")
                    .append(xml(javaHome))
                    .append("</string></dict>\n");
        }
        return b.append("  <key>StartCalendarInterval</key>\n  <dict>\n    <key>Hour</key><integer>")
                .append(time.getHour())
                .append("</integer>\n    <key>Minute</key><integer>")
                .append(time.getMinute())
                .append("</integer>\n  </dict>\n</dict>\n</plist>\n")
                .toString();
    }

    private static String xml(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    }
}
