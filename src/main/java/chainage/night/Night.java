package chainage.night;

import chainage.answer.due.Notice;
import chainage.command.CommandContext;
import chainage.command.Errors;
import chainage.host.Herald;
import chainage.host.NightFiles;
import chainage.host.Terminal;
import chainage.intake.ImportRun;
import chainage.quantity.PlainText;
import chainage.render.Out;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;

/** One night's work: import, then what is due, then page and calendar. All of it is logged, and what is new is said. */
public final class Night {
    private final CommandContext context;
    private final List<Path> folders;
    private final List<Part> parts;
    private final Herald herald;
    private final StringBuilder log = new StringBuilder();
    private final List<Notice> notices = new ArrayList<>();

    /** Something that is done each night. */
    public interface Part {
        /**
         * Does it, and answers the exit code.
         *
         * @param context whose answers go into the log
         * @param heard takes what is to be heard
         */
        int run(CommandContext context, Consumer<Notice> heard);
    }

    /**
     * Of one night.
     *
     * @param parts what is asked once its rides are in, in their order
     */
    public Night(CommandContext context, List<Path> folders, List<Part> parts, Herald herald) {
        this.context = context;
        this.folders = folders;
        this.parts = parts;
        this.herald = herald;
    }

    /** Does it, and answers the exit code. */
    public Integer run(NightFiles files) throws IOException {
        log.append(context.format().time(context.now())).append('\n');
        int code = importAll();
        // What is known already is told whatever the night brought, unless the ledger itself is in trouble.
        boolean answered = Set.of(ExitCode.OK.code(), ExitCode.REFUSED.code(), ExitCode.NO_SUCH_FILE.code())
                .contains(code);
        if (answered) {
            parts.forEach(this::step);
        }
        try {
            return tell(files, answered) ? code : ExitCode.IO.code();
        } finally {
            files.log(log.toString());
        }
    }

    /** A disk that is not mounted is no reason to leave the other folders for another night. */
    private int importAll() {
        List<Path> there = folders.stream().filter(Files::exists).toList();
        for (Path gone : folders) {
            if (!there.contains(gone)) {
                String line = "\"" + gone
                        + "\" is not there, so its rides wait for another night; mount it, or set up"
                        + " the night anew without it";
                hear(line);
                log.append("chainage: ").append(line).append('\n');
            }
        }
        int code = there.size() < folders.size() ? ExitCode.NO_SUCH_FILE.code() : ExitCode.OK.code();
        if (there.isEmpty()) {
            return code;
        }
        int imported = step((c, heard) -> new ImportRun(c, ImportRun.Wish.of(there)).run());
        return imported == ExitCode.OK.code() ? code : imported;
    }

    /** Does a part as for the rider by day; what it says goes into the log, what went wrong is to be heard. */
    private int step(Part part) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        Terminal t = context.terminal();
        Terminal heard = new Terminal(
                new PrintWriter(out), new PrintWriter(err), false, t.columns(), t.environment(), t.clock());
        int code;
        try {
            code = part.run(new Heard(heard), notices::add);
        } catch (RuntimeException e) {
            hear(Errors.told(e, "").message());
            code = Errors.tell(heard, false, e, "");
        }
        heard.out().flush();
        heard.err().flush();
        log.append(out).append(err);
        return code;
    }

    /** Notes something that went wrong, in one line. */
    private void hear(String trouble) {
        notices.add(Notice.of("chainage: " + PlainText.marked(trouble)));
    }

    /** What a part of the night works with: it is as by day, but that what goes wrong is heard as well. */
    private final class Heard extends CommandContext {
        Heard(Terminal terminal) {
            super(terminal, context.ledgerPath(), context.asked().kept(), false, false, context.runner());
        }

        @Override
        public void warn(String line) {
            super.warn(line);
            hear(line);
        }
    }

    /**
     * Says what was not said on an earlier night.
     *
     * @param answered whether it is known what is due; else what was told of it stands
     * @return false when nobody took it; then it is said again the next night
     */
    private boolean tell(NightFiles files, boolean answered) throws IOException {
        Map<String, Notice> all = new LinkedHashMap<>();
        notices.forEach(n -> all.putIfAbsent(n.key().replaceAll("\\R", " "), n));
        List<String> before = files.told(context.ledgerPath().toAbsolutePath());
        List<String> after = new ArrayList<>(all.keySet());
        if (!answered) {
            before.stream().filter(k -> !after.contains(k)).forEach(after::add);
        }
        all.keySet().removeAll(before);
        boolean heard = true;
        if (!all.isEmpty()) {
            String message = message(List.copyOf(all.values()));
            context.out().text(message);
            List<String> wrong = herald.say(message);
            wrong.forEach(context::warn);
            log.append("said:\n").append(message);
            wrong.forEach(w -> log.append(w).append('\n'));
            heard = herald.heard(wrong);
            if (!heard) {
                after.removeAll(all.keySet());
            }
        }
        if (!after.equals(before)) {
            files.keepTold(context.ledgerPath().toAbsolutePath(), after);
        }
        return heard;
    }

    /** Lines that stay whole: what shows them has a width of its own. */
    private static String message(List<Notice> news) {
        StringWriter text = new StringWriter();
        PrintWriter to = new PrintWriter(text);
        Out out = new Out(to, 0, false);
        news.forEach(n -> out.whole(n.text()));
        List<String> cares = news.stream()
                .map(Notice::care)
                .filter(c -> !c.isEmpty())
                .distinct()
                .toList();
        cares.forEach(out::whole);
        if (!cares.isEmpty()) {
            out.whole("More: chainage due");
        }
        to.flush();
        return text.toString();
    }
}
