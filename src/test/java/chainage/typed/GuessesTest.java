package chainage.typed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.cli.Commands;
import chainage.cli.Main;
import chainage.cli.Run;
import chainage.command.Chainage;
import chainage.ledger.Method;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import java.io.StringWriter;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;

/** What riders try, and what is suggested to them. */
class GuessesTest {
    private static <T> Set<String> words(T[] values, Function<T, String> word) {
        return Arrays.stream(values).map(word).collect(Collectors.toSet());
    }

    private static Set<String> options() {
        CommandLine root = new CommandLine(
                new Chainage(Run.terminal(Instant.EPOCH, new StringWriter(), new StringWriter()), Main.RUNNER));
        Commands.addAllTo(root);
        Set<String> options = new HashSet<>(root.getCommandSpec().optionsMap().keySet());
        root.getSubcommands().values().forEach(c -> options(c, options));
        return options;
    }

    private static void options(CommandLine line, Set<String> options) {
        options.addAll(line.getCommandSpec().optionsMap().keySet());
        line.getSubcommands().values().forEach(c -> options(c, options));
    }

    private static Set<String> known(Guesses.Of of) {
        return switch (of) {
            case COMMAND, BELOW -> new HashSet<>(Commands.names());
            case OPTION -> options();
            case TAG -> Set.copyOf(Tags.WORDS);
            case METHOD -> words(Method.values(), Method::word);
            case REMARK -> words(Remark.values(), Remark::word);
            case TOOL -> words(Reading.Tool.values(), Reading.Tool::word);
            case UNITS -> Set.copyOf(Setting.UNITS.listed());
            case TOPIC -> Topics.all().keySet();
            case RANGE -> Set.of();
        };
    }

    /** A suggestion that is itself refused would be worse than none, and a guess that is a word would hide it. */
    @Test
    void whatIsSuggestedThereIsAndWhatIsGuessedThereIsNot() {
        Set<String> seen = new HashSet<>();
        for (Guesses.Line line : Guesses.all()) {
            Set<String> known = known(line.of());
            for (String word : line.words()) {
                assertTrue(seen.add(line.of() + " " + word), line.of() + " " + word + " stands twice");
                assertFalse(
                        line.of() != Guesses.Of.OPTION && line.of() != Guesses.Of.BELOW && known.contains(word), word);
            }
            if (line.of() == Guesses.Of.RANGE) {
                continue;
            }
            for (String meant : line.meant()) {
                List<String> words =
                        List.of(meant.replaceFirst("^chainage (\\* )?", "").split(" "));
                if (line.of() == Guesses.Of.TAG) {
                    assertTrue(known.containsAll(words), meant);
                } else {
                    String first = words.get(0);
                    assertTrue(
                            known.contains(first) || first.equals("--version") || meant.startsWith("chainage *"),
                            meant);
                }
            }
        }
    }

    @ParameterizedTest
    @CsvSource({
        "2019-2-1, 2019-02-01",
        "2019-12-1, 2019-12-01",
        "2019-2-1 14:30, 2019-02-01 14:30",
        "2019-2, 2019-02",
        "2019-02-01, 2019-02-01",
        "2019-2-123, 2019-2-123",
        "01.02.2019, 01.02.2019"
    })
    void aYearThatComesFirstLeavesOneReading(String typed, String read) {
        assertEquals(read, TypedDate.padded(typed));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            17.02.2019  | did you mean 2019-02-17?
            1 Feb 2019  | did you mean 2019-02-01?
            Feb 1, 2019 | did you mean 2019-02-01?
            2019/02/01  | did you mean 2019-02-01?
            01.02.2019  | did you mean 2019-02-01 or 2019-01-02?
            02/02/2019  | did you mean 2019-02-02?
            32.13.2019  | other
            august      | a month is written with its year, such as 2023-08
            Dec         | a month is written with its year, such as 2022-12
            soon        | other
            """)
    void aDateInAnotherFormIsAskedBack(String typed, String hint) {
        assertEquals(hint, TypedDate.hint(typed, LocalDate.of(2023, 11, 5), "other"));
    }
}
