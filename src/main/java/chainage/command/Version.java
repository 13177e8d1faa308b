package chainage.command;

import chainage.host.Program;
import picocli.CommandLine.IVersionProvider;

/** What {@code --version} says. */
final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
        return new String[] {Program.version()};
    }
}
