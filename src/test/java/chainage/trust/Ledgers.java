package chainage.trust;

import chainage.store.LedgerFile;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

/** What a ledger holds, read in this process so that a look costs no start of the program. */
final class Ledgers {
    private Ledgers() {}

    /** All facts as text, without the instants at which they were typed: those of a second try differ. */
    static String facts(Path ledger) throws IOException {
        StringBuilder text = new StringBuilder();
        try (LedgerFile file = LedgerFile.openReadOnly(ledger)) {
            file.export(text);
        }
        return text.toString().replaceAll("\"recorded\":\"[^\"]*\"", "\"recorded\":\"\"");
    }

    /** How many entries and rides there are. */
    static int size(Path ledger) throws IOException {
        return (int) facts(ledger)
                .lines()
                .filter(l -> l.startsWith("{\"entry\"") || l.startsWith("{\"ride\""))
                .count();
    }

    /** What is wrong with the file. */
    static List<String> faults(Path ledger) throws IOException {
        try (LedgerFile file = LedgerFile.openReadOnly(ledger)) {
            return file.integrityCheck().stream()
                    .map(chainage.store.Fault::what)
                    .toList();
        }
    }

    /** The first line in which two texts differ, for a report. */
    static String difference(String expected, String actual) {
        List<String> a = expected.lines().toList();
        List<String> b = actual.lines().toList();
        for (int i = 0; i < Math.min(a.size(), b.size()); i++) {
            if (!a.get(i).equals(b.get(i))) {
                return "line " + (i + 1) + " is " + b.get(i) + " instead of " + a.get(i);
            }
        }
        return b.size() + " lines instead of " + a.size();
    }
}
