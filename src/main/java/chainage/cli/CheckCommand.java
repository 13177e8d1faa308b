package chainage.cli;

import chainage.ledger.Ledger;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Command;

@Command(
        name = "check",
        description = "Verify that the ledger file is sound and that no facts contradict each other.",
        footer = {"Example:", "  chainage check"})
final class CheckCommand extends Action {
    @Override
    public Integer call() {
        Desk desk = desk();
        List<String> found = new ArrayList<>();
        if (desk.written()) {
            try (LedgerFile file = LedgerFile.openReadOnly(desk.ledgerPath())) {
                file.integrityCheck().forEach(t -> found.add("the file: " + t + "; restore it from a copy"));
                Ledger ledger = Ledger.of(file.load().entries());
                found.addAll(desk.contradictions(ledger, ledger.chains().keySet()));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        if (desk.json()) {
            new Json().put("problems", found).print(desk.out());
        } else if (found.isEmpty()) {
            desk.out().println("the ledger is sound, and nothing in it contradicts itself");
        } else {
            found.forEach(f -> desk.out().println(Words.safe(f)));
        }
        return found.isEmpty() ? ExitCode.OK.code() : ExitCode.REFUSED.code();
    }
}
