package chainage.command;

import chainage.answer.due.LedgersDue;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;

/** Several ledgers that one question is put to: named one by one, or by the folder that they lie in. */
public final class SeveralLedgers {
    private static final String ENDING = ".sqlite";

    private final Chainage root;
    private final List<Path> named;
    private final CommandContext first;
    private final AtomicInteger failure = new AtomicInteger(ExitCode.OK.code());

    public SeveralLedgers(Chainage root) {
        this.root = root;
        this.named = root.ledgerPaths();
        this.first = root.contextOf(named.get(0));
    }

    /** Whether more is asked for than one file. */
    public boolean asked() {
        return named.size() > 1 || Files.isDirectory(named.get(0));
    }

    /** By whose settings the answer is told. */
    public CommandContext first() {
        return first;
    }

    /** Says what does not fit, and answers with the exit code that is not 0 where a ledger was not read or is at odds. */
    public int contradictions(LedgersDue answer) {
        answer.ledgers()
                .forEach(l -> l.contradictions().forEach(c -> Errors.say(root.terminal(), l.ledger() + ": " + c)));
        boolean contradicts = answer.ledgers().stream().anyMatch(LedgersDue.One::contradicts);
        return failure.get() != ExitCode.OK.code() || !contradicts ? failure.get() : ExitCode.REFUSED.code();
    }

    /** Where the chains of all of them stand; a ledger that cannot be read is told of, and the others answer. */
    public LedgersDue due() {
        List<Path> files =
                named.stream().flatMap(SeveralLedgers::within).distinct().toList();
        return new LedgersDue(
                first.now(),
                files.parallelStream().flatMap(f -> one(f).stream()).toList(),
                first.format());
    }

    private static Stream<Path> within(Path named) {
        if (!Files.isDirectory(named)) {
            return Stream.of(named);
        }
        try (Stream<Path> files = Files.list(named)) {
            List<Path> ledgers = files.filter(f -> f.toString().endsWith(ENDING) && Files.isRegularFile(f))
                    .sorted()
                    .toList();
            if (ledgers.isEmpty()) {
                throw new CliError(
                        ExitCode.NO_SUCH_FILE,
                        "there is no ledger in \"" + named + "\"",
                        "ledgers are files that end in " + ENDING);
            }
            return ledgers.stream();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Only lines are kept of each, since all rides of many ledgers would not fit. */
    private Optional<LedgersDue.One> one(Path ledger) {
        try {
            CommandContext context = root.contextOf(ledger);
            if (context.missing() != null) {
                throw CliError.noLedger(ledger.toString());
            }
            CommandContext.Known known = context.known(true);
            LedgersDue.One one = LedgersDue.One.of(
                    ledger.toString(), String.valueOf(ledger.getFileName()), known.analysis(), context.format());
            known.later().run();
            return Optional.of(one);
        } catch (RuntimeException e) {
            failure.set(Errors.tell(root.terminal(), false, e, ""));
            return Optional.empty();
        }
    }
}
