package chainage.answer.things;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.quantity.PlainText;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class InstalledWordsTest {
    @ParameterizedTest
    @ValueSource(strings = {"/bin/zsh", "/usr/bin/bash", "/usr/bin/fish", ""})
    void everyLineCanBePrintedAsItIs(String shell) {
        List<String> lines = new InstalledWords("/home/wren/.local", "", shell, false).lines();
        assertEquals(lines.stream().map(PlainText::marked).toList(), lines);
    }

    @Test
    void whatGoesIntoAProfileStandsOnALineOfItsOwn() {
        assertEquals(
                List.of(
                        "for completion in zsh, put into ~/.zshrc:",
                        "  fpath=(/home/wren/.local/share/zsh/site-functions $fpath); autoload -Uz compinit && compinit",
                        "/home/wren/.local/bin is not on your PATH yet; put into your shell's profile:",
                        "  export PATH=\"/home/wren/.local/bin:$PATH\""),
                new InstalledWords("/home/wren/.local", "", "/bin/zsh", false).lines());
    }

    @Test
    void whereNothingIsLeftToDoItIsSaidHowToTakeItAway() {
        assertEquals(
                List.of("to take it away: chainage install-self --remove --prefix /usr/local"),
                new InstalledWords("/usr/local", " --prefix /usr/local", "/bin/zsh", true).lines());
    }
}
