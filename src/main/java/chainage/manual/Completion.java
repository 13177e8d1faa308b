package chainage.manual;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * What a shell offers when the tabulator is pressed: the commands, behind a command its options, behind an option its
 * values where they can be listed, else names of files.
 */
public final class Completion {
    /** The word just read is an option's value, an option that waits for one, another option, or leads to a command. */
    private static final String WALK = """
                    if [[ -n $before ]]; then before=''; continue; fi
                    case $typed in
            VALUED) before=$typed ;;
                        -*) ;;
                        *) case "$command $typed" in
            COMMANDS) command="$command $typed" ;;
                            esac ;;
                    esac""";

    private final CommandPage program;
    private final String mark;

    /**
     * Scripts for a program.
     *
     * @param mark a comment that stands in the first lines
     */
    public Completion(CommandPage program, String mark) {
        this.program = program;
        this.mark = mark;
    }

    /** For bash, to lie in a folder of completions under the program's own name. */
    public String bash() {
        return filled(
                """
                # MARK
                _NAME() {
                    local word=${COMP_WORDS[COMP_CWORD]} before='' command='' typed i
                    COMPREPLY=()
                    for ((i = 1; i < COMP_CWORD; i++)); do
                        typed=${COMP_WORDS[i]}
                        # Bash takes an equals sign for a word of its own.
                        [ "$typed" = '=' ] && continue
                WALK
                    done
                    [ "$word" = '=' ] && word=''
                    local list=''
                    if [ -n "$before" ]; then
                        case $before in
                VALUES
                        esac
                    elif [[ $word == -* ]]; then
                        case $command in
                OPTIONS
                        esac
                    else
                        case $command in
                BELOW
                        esac
                    fi
                    COMPREPLY=($(compgen -W "$list" -- "$word"))
                }
                complete -o bashdefault -o default -F _NAME NAME
                """,
                c -> "list='" + String.join(" ", c) + "'",
                c -> "list='" + names(c) + "'",
                c -> "list='" + String.join(" ", c.keySet()) + "'");
    }

    /** For zsh, to lie in a folder of its functions under the program's name behind an underscore. */
    public String zsh() {
        return filled(
                """
                #compdef NAME
                # MARK
                _NAME() {
                    local before='' command='' typed i
                    local -a list
                    for ((i = 2; i < CURRENT; i++)); do
                        typed=${words[i]}
                WALK
                    done
                    if [[ -n $before ]]; then
                        case $before in
                VALUES
                        esac
                        if (( $#list )); then compadd -a list; else _files; fi
                    elif [[ ${words[CURRENT]} == -* ]]; then
                        case $command in
                OPTIONS
                        esac
                        _describe -o option list
                    else
                        case $command in
                BELOW
                        esac
                        if (( $#list )); then _describe command list; else _files; fi
                    fi
                }
                _NAME "$@"
                """,
                c -> "list=(" + String.join(" ", c) + ")",
                c -> "list=("
                        + c.stream()
                                .flatMap(o -> o.names().stream().map(n -> quoted(n + ":" + o.words())))
                                .collect(Collectors.joining(" "))
                        + ")",
                c -> "list=("
                        + c.entrySet().stream()
                                .map(b -> quoted(b.getKey() + ":" + b.getValue()))
                                .collect(Collectors.joining(" "))
                        + ")");
    }

    /**
     * A script in the language that bash and zsh share.
     *
     * @param values what offers the values of an option
     * @param options what offers options
     * @param below what offers the words behind a command
     */
    private String filled(
            String script,
            Function<List<String>, String> values,
            Function<List<Item>, String> options,
            Function<Map<String, String>, String> below) {
        return script.replace("WALK", WALK)
                .replace("MARK", mark)
                .replace("NAME", program.name())
                .replace("VALUED", "            " + String.join(" | ", valued()))
                .replace("COMMANDS", "                " + paths())
                .replace("VALUES", cases(choices(), values))
                .replace("OPTIONS", cases(options(), options))
                .replace("BELOW", cases(below(), below));
    }

    /** For fish, to lie in a folder of completions under the program's name. */
    public String fish() {
        // Fish's own test for a command would take an option's value for one.
        String at = "__" + program.name() + "_at";
        List<String> lines = new ArrayList<>();
        lines.add("""
                # MARK
                function AT
                    set -l before ''
                    set -l command ''
                    set -l typed (commandline -opc)
                    set -e typed[1]
                    for word in $typed
                        if test -n "$before"
                            set before ''
                            continue
                        end
                        switch $word
                            case VALUED
                                set before $word
                            case '-*'
                            case '*'
                                switch "$command $word"
                                    case COMMANDS
                                        set command "$command $word"
                                end
                        end
                    end
                    test "$command" = "$argv[1]"
                end""".replace("MARK", mark).replace("AT", at).replace("VALUED", String.join(" ", valued())).replace(
                "COMMANDS",
                program.all().stream()
                        .skip(1)
                        .map(c -> fishQuoted(" " + c.path()))
                        .collect(Collectors.joining(" "))));
        for (CommandPage command : program.all()) {
            String here = typed(command);
            String complete = "complete -c " + program.name() + " -n " + fishQuoted(at + " " + here);
            next(command).forEach((word, brief) -> lines.add(complete + " -f -a " + word + " -d " + fishQuoted(brief)));
            for (Item option : command.options()) {
                StringBuilder line = new StringBuilder(complete);
                option.names()
                        .forEach(n -> line.append(n.startsWith("--") ? " -l " : " -s ")
                                .append(n.replaceFirst("^--?", "")));
                if (option.takesValue()) {
                    line.append(
                            option.choices().isEmpty()
                                    ? " -r"
                                    : " -x -a " + fishQuoted(String.join(" ", option.choices())));
                }
                lines.add(line + " -d " + fishQuoted(option.words()));
            }
        }
        return String.join("\n", lines) + "\n";
    }

    /** All options of any command that take a value. */
    private Set<String> valued() {
        return program.all().stream()
                .flatMap(c -> c.options().stream())
                .filter(Item::takesValue)
                .flatMap(o -> o.names().stream())
                .collect(Collectors.toCollection(LinkedHashSet::new));
    }

    private String paths() {
        return program.all().stream().skip(1).map(c -> "\" " + c.path() + "\"").collect(Collectors.joining(" | "));
    }

    /** Values of options by the option, which means the same in every command that has it. */
    private Map<String, List<String>> choices() {
        Map<String, List<String>> choices = new LinkedHashMap<>();
        for (CommandPage c : program.all()) {
            c.options().stream()
                    .filter(o -> !o.choices().isEmpty())
                    .forEach(o -> choices.putIfAbsent(String.join(" | ", o.names()), o.choices()));
        }
        return choices;
    }

    private Map<String, List<Item>> options() {
        Map<String, List<Item>> options = new LinkedHashMap<>();
        program.all().forEach(c -> options.put(typed(c), c.options()));
        return options;
    }

    /** What may stand behind a command, with a few words on it: the commands below, or its parameters' choices. */
    private static Map<String, String> next(CommandPage command) {
        Map<String, String> next = new LinkedHashMap<>();
        command.below().forEach(c -> next.put(c.name(), c.brief()));
        command.parameters().forEach(p -> p.choices().forEach(c -> next.putIfAbsent(c, "")));
        return next;
    }

    private Map<String, Map<String, String>> below() {
        Map<String, Map<String, String>> below = new LinkedHashMap<>();
        program.all().stream().filter(c -> !next(c).isEmpty()).forEach(c -> below.put(typed(c), next(c)));
        return below;
    }

    /** As the scripts put a command together, word by word behind a space. */
    private static String typed(CommandPage command) {
        return command.path().isEmpty() ? "''" : "\" " + command.path() + "\"";
    }

    private static String names(List<Item> options) {
        return options.stream().flatMap(o -> o.names().stream()).collect(Collectors.joining(" "));
    }

    private static <T> String cases(Map<String, T> cases, Function<T, String> then) {
        return cases.entrySet().stream()
                .map(c -> "            " + c.getKey() + ") " + then.apply(c.getValue()) + " ;;")
                .collect(Collectors.joining("\n"));
    }

    private static String quoted(String words) {
        return "'" + words.replace("'", "'\\''") + "'";
    }

    private static String fishQuoted(String words) {
        return "'" + words.replace("\\", "\\\\").replace("'", "\\'") + "'";
    }
}
