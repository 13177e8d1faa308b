package chainage.answer.things;

import chainage.quantity.PlainText;
import java.util.ArrayList;
import java.util.List;

/**
 * What is still to be done once the program is a command.
 *
 * @param prefix the folder with bin and share in it
 * @param option that names the prefix, with a blank before it; empty for the usual one
 * @param shell the rider's own, as a path; empty where it is not known
 * @param onPath whether the shell looks for programs there
 */
public record InstalledWords(String prefix, String option, String shell, boolean onPath) {
    /** A line each. */
    public List<String> lines() {
        List<String> said = new ArrayList<>(completion());
        String bin = prefix + "/bin";
        said.addAll(
                onPath
                        ? List.of("to take it away: chainage install-self --remove" + option)
                        : List.of(
                                bin + " is not on your PATH yet; put into your shell's profile:",
                                "  export PATH=\"" + bin + ":$PATH\""));
        return said;
    }

    /** What the rider's own shell still wants before it finds the completion; a new shell of others finds it by itself. */
    private List<String> completion() {
        String name = shell.replaceFirst(".*/", "");
        if (name.equals("zsh") && !List.of("/usr/local", "/usr").contains(prefix)) {
            return List.of(
                    "for completion in zsh, put into ~/.zshrc:",
                    "  fpath=(" + PlainText.typed(prefix + "/share/zsh/site-functions")
                            + " $fpath); autoload -Uz compinit && compinit");
        }
        return name.equals("bash")
                ? List.of(
                        "completion in bash comes with the package bash-completion; without it, put into ~/.bashrc:",
                        "  . " + PlainText.typed(prefix + "/share/bash-completion/completions/chainage"))
                : List.of();
    }
}
