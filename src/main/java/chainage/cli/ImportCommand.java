package chainage.cli;

import picocli.CommandLine.Command;

@Command(name = "import")
final class ImportCommand extends Action {
    @Override
    public Integer call() {
        return 0;
    }

    static String line(String path, String reason, String mend) {
        return Words.safe(path + ": " + reason + (mend.isEmpty() ? "" : "; " + mend));
    }
}
