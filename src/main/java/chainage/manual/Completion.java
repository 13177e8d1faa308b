package chainage.manual;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * What a shell offers when the tabulator is pressed: the commands, behind a command its options and what may stand in each
 * place, behind an option its values where they can be listed, else names of files. Names that live in the ledger are
 * asked from the program itself: {@code complete KIND [LEDGER]} answers them a line each, with a few words on it behind
 * a tabulator.
 */
public final class Completion {
    /**
     * The word just read is an option's value, an option that waits for one, another option, leads to a command, or stands
     * behind one.
     */
    private static final String WALK = """
                    if [[ -n $before ]]; then
                        [[ $before == --ledger ]] && ledger=$typed
                        before=''
                        continue
                    fi
                    case $typed in
            VALUED) before=$typed ;;
                        --ledger=*) ledger=${typed#*=} ;;
                        -*) ;;
                        *) case "$command $typed" in
            COMMANDS) command="$command $typed"; place=0 ;;
                                *) place=$((place + 1)) ;;
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

    /**
     * What may stand somewhere.
     *
     * @param words known beforehand, with a few words on each
     * @param live the kind of names that are asked from the program; empty for none
     */
    private record Offer(Map<String, String> words, String live) {
        static Offer of(Item item) {
            Map<String, String> words = new LinkedHashMap<>();
            item.choices().forEach(c -> words.put(c, ""));
            return new Offer(words, item.live());
        }

        /** For a script that knows of both as variables. */
        String shell(String list) {
            return (words.isEmpty() ? "" : list)
                    + (live.isEmpty() ? "" : (words.isEmpty() ? "" : "; ") + "live=" + live);
        }
    }

    /** For bash, to lie in a folder of completions under the program's own name; nothing newer than bash 3.2. */
    public String bash() {
        return filled(
                """
                # MARK
                _NAME() {
                    local word=${COMP_WORDS[COMP_CWORD]} before='' command='' ledger='' place=0 typed i
                    COMPREPLY=()
                    for ((i = 1; i < COMP_CWORD; i++)); do
                        typed=${COMP_WORDS[i]}
                        # Bash takes an equals sign for a word of its own.
                        [ "$typed" = '=' ] && continue
                WALK
                    done
                    [ "$word" = '=' ] && word=''
                    local list='' live=''
                    if [ -n "$before" ]; then
                        case $before in
                VALUES
                        esac
                    elif [[ $word == -* ]]; then
                        case $command in
                OPTIONS
                        esac
                    else
                        case $command:$place in
                BELOW
                        esac
                    fi
                    COMPREPLY=($(compgen -W "$list" -- "$word"))
                    [ -n "$live" ] || return
                    # Files are no names; bash 3.2 offers them where nothing fits.
                    compopt +o default +o bashdefault 2>/dev/null
                    # A name may hold blanks, and may have been begun with a quote or a backslash.
                    local start=${word#[\\"\\']} name
                    start=${start//\\\\/}
                    while IFS=$'\\t' read -r name _; do
                        [[ $name == "$start"* ]] || continue
                        case $word in
                            [\\"\\']*) ;;
                            *) name=$(printf '%q' "$name") ;;
                        esac
                        COMPREPLY+=("$name")
                    done < <("${COMP_WORDS[0]/#\\~/$HOME}" complete "$live" "${ledger/#\\~/$HOME}" 2>/dev/null)
                }
                complete -o bashdefault -o default -F _NAME NAME
                """,
                offer -> offer.shell("list='" + String.join(" ", offer.words().keySet()) + "'"),
                c -> "list='" + names(c) + "'");
    }

    /** For zsh, to lie in a folder of its functions under the program's name behind an underscore. */
    public String zsh() {
        return filled(
                """
                #compdef NAME
                # MARK
                _NAME() {
                    local before='' command='' ledger='' live='' place=0 typed i line
                    local -a list
                    for ((i = 2; i < CURRENT; i++)); do
                        typed=${(Q)words[i]}
                WALK
                    done
                    if [[ -n $before ]]; then
                        case $before in
                VALUES
                        esac
                    elif [[ ${words[CURRENT]} == -* ]]; then
                        case $command in
                OPTIONS
                        esac
                        _describe -o option list
                        return
                    else
                        case $command:$place in
                BELOW
                        esac
                    fi
                    if [[ -n $live ]]; then
                        for line in ${(f)"$("${words[1]/#\\~/$HOME}" complete $live "${ledger/#\\~/$HOME}" 2>/dev/null)"}; do
                            i=${${line%$'\\t'*}//:/\\\\:}
                            [[ $line == *$'\\t'* ]] && i+=":${line#*$'\\t'}"
                            list+=("$i")
                        done
                    fi
                    if (( $#list )); then _describe word list; else _files; fi
                }
                _NAME "$@"
                """,
                offer -> offer.shell("list=("
                        + offer.words().entrySet().stream()
                                .map(w -> quoted(w.getKey() + (w.getValue().isEmpty() ? "" : ":" + w.getValue())))
                                .collect(Collectors.joining(" "))
                        + ")"),
                c -> "list=("
                        + c.stream()
                                .flatMap(o -> o.names().stream().map(n -> quoted(n + ":" + o.words())))
                                .collect(Collectors.joining(" "))
                        + ")");
    }

    /**
     * A script in the language that bash and zsh share.
     *
     * @param offer what lets something be offered
     * @param options what offers options
     */
    private String filled(String script, Function<Offer, String> offer, Function<List<Item>, String> options) {
        return script.replace("WALK", WALK)
                .replace("MARK", mark)
                .replace("NAME", program.name())
                .replace("VALUED", "            " + String.join(" | ", valued()))
                .replace("COMMANDS", "                " + paths())
                .replace("VALUES", cases(values(), offer))
                .replace("OPTIONS", cases(options(), options))
                .replace("BELOW", cases(below(), offer));
    }

    /** For fish, to lie in a folder of completions under the program's name. */
    public String fish() {
        // Fish's own test for a command would take an option's value for one.
        String at = "__" + program.name() + "_at";
        String live = "__" + program.name() + "_live";
        List<String> lines = new ArrayList<>();
        lines.add("""
                # MARK
                function AT
                    set -l before ''
                    set -l command ''
                    set -l place 0
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
                                        set place 0
                                    case '*'
                                        set place (math $place + 1)
                                end
                        end
                    end
                    test "$command" = "$argv[1]"; or return
                    switch $argv[2]
                        case ''
                        case '*+'
                            test $place -ge (string trim -c + -- $argv[2])
                        case '*'
                            test $place = $argv[2]
                    end
                end
                function LIVE
                    set -l typed (commandline -opc)
                    set -l ledger ''
                    set -l before ''
                    for word in $typed
                        test "$before" = --ledger; and set ledger $word
                        string match -q -- '--ledger=*' $word; and set ledger (string replace -- '--ledger=' '' $word)
                        set before $word
                    end
                    set -l program (string replace -r '^~' $HOME -- $typed[1])
                    $program complete $argv[1] (string replace -r '^~' $HOME -- $ledger) 2>/dev/null
                end""".replace("MARK", mark)
                .replace("AT", at)
                .replace("LIVE", live)
                .replace("VALUED", String.join(" ", valued()))
                .replace(
                        "COMMANDS",
                        program.all().stream()
                                .skip(1)
                                .map(c -> fishQuoted(" " + c.path()))
                                .collect(Collectors.joining(" "))));
        for (CommandPage command : program.all()) {
            String here = at + " " + typed(command);
            String complete = "complete -c " + program.name() + " -n ";
            command.below()
                    .forEach(b -> lines.add(complete + fishQuoted(here + " 0") + " -f -a " + b.name() + " -d "
                            + fishQuoted(b.brief())));
            places(command)
                    .forEach((place, item) -> lines.add(
                            complete + fishQuoted(here + " " + place) + " -f -a " + fishQuoted(asked(item, live))));
            for (Item option : command.options()) {
                StringBuilder line = new StringBuilder(complete).append(fishQuoted(here));
                option.names()
                        .forEach(n -> line.append(n.startsWith("--") ? " -l " : " -s ")
                                .append(n.replaceFirst("^--?", "")));
                if (option.takesValue()) {
                    line.append(option.offers() ? " -x -a " + fishQuoted(asked(option, live)) : " -r");
                }
                lines.add(line + " -d " + fishQuoted(option.words()));
            }
        }
        return String.join("\n", lines) + "\n";
    }

    /** What fish works out when it is asked. */
    private static String asked(Item item, String live) {
        String words = String.join(" ", item.choices());
        return item.live().isEmpty() ? words : (words + " (" + live + " " + item.live() + ")").strip();
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
    private Map<String, Offer> values() {
        Map<String, Offer> values = new LinkedHashMap<>();
        for (CommandPage c : program.all()) {
            c.options().stream()
                    .filter(o -> o.takesValue() && o.offers())
                    .forEach(o -> values.putIfAbsent(String.join(" | ", o.names()), Offer.of(o)));
        }
        return values;
    }

    private Map<String, List<Item>> options() {
        Map<String, List<Item>> options = new LinkedHashMap<>();
        program.all().forEach(c -> options.put(typed(c), c.options()));
        return options;
    }

    /** A command's parameters that something can be offered for, by their place behind it, such as 0, or 1+ from there on. */
    private static Map<String, Item> places(CommandPage command) {
        Map<String, Item> places = new LinkedHashMap<>();
        List<Item> all = command.parameters();
        for (int i = 0; i < all.size(); i++) {
            if (all.get(i).offers()) {
                places.put(i + (all.get(i).many() ? "+" : ""), all.get(i));
            }
        }
        return places;
    }

    /** What may stand behind a command, by the command and the place, as a case of the shells. */
    private Map<String, Offer> below() {
        Map<String, Offer> below = new LinkedHashMap<>();
        for (CommandPage command : program.all()) {
            Map<String, String> words = new LinkedHashMap<>();
            command.below().forEach(c -> words.put(c.name(), c.brief()));
            String here = command.path().isEmpty() ? "" : " " + command.path();
            Map<String, Item> places = places(command);
            if (!words.isEmpty()) {
                below.put("\"" + here + ":0\"", new Offer(words, ""));
            }
            places.forEach((place, item) -> below.putIfAbsent(
                    place.endsWith("+") ? "\"" + here + ":\"*" : "\"" + here + ":" + place + "\"", Offer.of(item)));
        }
        return below;
    }

    /** As the scripts put a command together, word by word behind a space. */
    private static String typed(CommandPage command) {
        return command.path().isEmpty() ? "''" : "\" " + command.path() + "\"";
    }

    private static String names(Collection<Item> options) {
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
