package chainage.host;

import java.nio.file.Path;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * What to run every night.
 *
 * @param command the program and its arguments, each as it is, unquoted; paths absolute; not empty, and no line breaks,
 *     which no scheduler's file could hold
 * @param time local, to the minute
 * @param javaHome where the Java is that runs now, so that it is the same one at night; empty where the command names it
 * @param printed where a scheduler that keeps nothing itself puts what is printed
 */
public record Job(List<String> command, LocalTime time, String javaHome, Path printed) {
    /** By this our line of a crontab is told from the rest. */
    public static final String CRON_MARK = "# chainage-nightly";

    public static final String SERVICE = "chainage-nightly.service";
    public static final String TIMER = "chainage-nightly.timer";
    public static final String LAUNCHD = "chainage.nightly";
    public static final String TASK = "chainage-nightly";

    /** Files for their owner alone. */
    private static final int UMASK = 0077;

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
                        String.format(Locale.ROOT, "UMask=%04o", UMASK),
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
        for (String stream : List.of("StandardOutPath", "StandardErrorPath")) {
            b.append("  <key>" + stream + "</key><string>")
                    .append(xml(printed.toString()))
                    .append("</string>\n");
        }
        // Numbers in a property list are decimal.
        b.append("  <key>Umask</key><integer>" + UMASK + "</integer>\n");
        return b.append("  <key>StartCalendarInterval</key>\n  <dict>\n    <key>Hour</key><integer>")
                .append(time.getHour())
                .append("</integer>\n    <key>Minute</key><integer>")
                .append(time.getMinute())
                .append("</integer>\n  </dict>\n</dict>\n</plist>\n")
                .toString();
    }

    /**
     * A task in XML, format 1.2, by the published schema ([MS-TSCH] Task Scheduler Service Remoting Protocol, section 2.5).
     * Held against that schema, never tried on Windows.
     */
    public String task() {
        StringBuilder arguments = new StringBuilder();
        for (String c : command.subList(1, command.size())) {
            arguments.append(arguments.isEmpty() ? "" : " ").append(windowsWord(c));
        }
        return String.join(
                "\r\n",
                "<?xml version=\"1.0\" encoding=\"UTF-16\"?>",
                "<Task version=\"1.2\" xmlns=\"http://schemas.microsoft.com/windows/2004/02/mit/task\">",
                "  <RegistrationInfo>",
                "    <Description>chainage: what is new among the exported rides</Description>",
                "  </RegistrationInfo>",
                "  <Triggers>",
                "    <CalendarTrigger>",
                // A day gone by; from then on daily.
                "      <StartBoundary>2026-01-01T" + time + ":00</StartBoundary>",
                "      <ScheduleByDay><DaysInterval>1</DaysInterval></ScheduleByDay>",
                "    </CalendarTrigger>",
                "  </Triggers>",
                "  <Principals>",
                "    <Principal id=\"rider\">",
                "      <LogonType>InteractiveToken</LogonType>",
                "      <RunLevel>LeastPrivilege</RunLevel>",
                "    </Principal>",
                "  </Principals>",
                "  <Settings>",
                "    <MultipleInstancesPolicy>IgnoreNew</MultipleInstancesPolicy>",
                "    <DisallowStartIfOnBatteries>false</DisallowStartIfOnBatteries>",
                "    <StopIfGoingOnBatteries>false</StopIfGoingOnBatteries>",
                // A night missed while off is made up for.
                "    <StartWhenAvailable>true</StartWhenAvailable>",
                "  </Settings>",
                "  <Actions Context=\"rider\">",
                "    <Exec>",
                "      <Command>" + xml(command.get(0)) + "</Command>",
                // The scheduler puts values in place of names after a dollar sign (section 2.5.9.1).
                "      <Arguments>" + xml(arguments.toString().replace("$", "$$")) + "</Arguments>",
                "    </Exec>",
                "  </Actions>",
                "</Task>",
                "");
    }

    /** A word as programs on Windows take their one line of arguments apart: backslashes count before a quote only. */
    private static String windowsWord(String word) {
        StringBuilder b = new StringBuilder("\"");
        int backslashes = 0;
        for (int i = 0; i < word.length(); i++) {
            char c = word.charAt(i);
            if (c == '"') {
                b.append("\\".repeat(backslashes + 1));
            }
            backslashes = c == '\\' ? backslashes + 1 : 0;
            b.append(c);
        }
        return b.append("\\".repeat(backslashes)).append('"').toString();
    }

    private static String xml(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    }
}
