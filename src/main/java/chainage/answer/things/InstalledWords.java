package chainage.answer.things;

import chainage.quantity.PlainText;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is still to be done once the program is a command.
 *
 * @param prefix the folder with bin and share in it
 * @param option that names the prefix, with a blank before it; empty for the usual one
 * @param shell the rider's own, as a path; empty where it is not known
 * @param onPath whether the shell looks for programs there
 */
public record InstalledWords(String prefix, String option, String shell, boolean onPath) {
    /** In their order, each perhaps of several lines. */
    public List<String> all() {
        List<String> said = new ArrayList<>();
        String completion = completion();
        if (completion != null) {
            said.add(completion);
        }
        String bin = prefix + "/bin";
        said.add(
                onPath
                        ? "to take it away: chainage install-self --remove" + option
                        : bin + " is not on your PATH yet; put into your shell's profile:\n  export PATH=\"" + bin
                                + ":$PATH\"");
        return said;
    }

    /** What the rider's own shell still wants before it finds the completion; a new shell of others finds it by itself. */
    private @Nullable String completion() {
        String name = shell.replaceFirst(".*/", "");
        if (name.equals("zsh") && !List.of("/usr/local", "/usr").contains(prefix)) {
            return "for completion in zsh, put into ~/.zshrc:\n  fpath=("
                    + PlainText.typed(prefix + "/share/zsh/site-functions")
                    + " $fpath); autoload -Uz compinit && compinit";
        }
        return name.equals("bash")
                ? "completion in bash comes with the package bash-completion; without it, put into ~/.bashrc:\n  . "
                        + PlainText.typed(prefix + "/share/bash-completion/completions/chainage")
                : null;
    }
}
