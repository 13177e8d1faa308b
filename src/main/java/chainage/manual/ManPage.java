package chainage.manual;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * Manual pages in the macros of man(7), which every reader of manuals knows. All that is not ASCII is written by its
 * number, so that no reader has to guess the encoding.
 */
public final class ManPage {
    private final StringBuilder text = new StringBuilder();

    private ManPage() {}

    /**
     * The page of one command, those below it in it.
     *
     * @param mark a comment that stands in the first line
     * @param version of the program
     * @param day of the version; may be empty
     * @param sections further ones by their headings, each a list of terms with what they mean
     * @param others names of related pages, such as {@code chainage-due}
     */
    public static String of(
            CommandPage command,
            String mark,
            String version,
            String day,
            Map<String, Map<String, String>> sections,
            List<String> others) {
        ManPage page = new ManPage();
        String name = String.join("-", command.words());
        page.raw(".\\\" " + mark);
        page.raw(".TH " + quoted(name.toUpperCase(java.util.Locale.ROOT)) + " 1 " + quoted(day) + " " + quoted(version)
                + " " + quoted(command.words().get(0) + " manual"));
        page.raw(".nh");
        page.raw(".ad l");
        page.section("NAME");
        page.words(name + " - " + lowered(command.brief()));
        page.section("SYNOPSIS");
        page.asIs(command.synopsis());
        page.section("DESCRIPTION");
        page.paragraphs(command.description());
        page.items("ARGUMENTS", command.parameters());
        page.items("OPTIONS", command.options());
        page.commands(command);
        sections.forEach((heading, terms) -> {
            page.section(heading);
            terms.forEach((term, words) -> page.term(bold(term), words));
        });
        if (!command.examples().isEmpty()) {
            page.section("EXAMPLES");
            page.asIs(command.examples());
        }
        if (!command.notes().isEmpty()) {
            page.section("NOTES");
            page.paragraphs(command.notes());
        }
        if (!others.isEmpty()) {
            page.section("SEE ALSO");
            page.raw(others.stream().map(o -> bold(o) + "(1)").collect(Collectors.joining(",\n")));
        }
        return page.text.toString();
    }

    private void commands(CommandPage command) {
        if (command.below().isEmpty()) {
            return;
        }
        section("COMMANDS");
        for (CommandPage below : command.below()) {
            if (command.words().size() == 1) {
                term(bold(below.name()), String.join(" ", below.description()));
                continue;
            }
            raw(".SS " + quoted(below.path()));
            asIs(below.synopsis());
            raw(".PP");
            paragraphs(below.description());
            below.parameters().stream().filter(p -> !p.words().isEmpty()).forEach(this::item);
            // Those of the whole program stand above.
            below.options().stream().filter(o -> !command.options().contains(o)).forEach(this::item);
            if (!below.examples().isEmpty()) {
                raw(".PP");
                asIs(below.examples());
            }
            below.notes().forEach(note -> {
                raw(".PP");
                words(note);
            });
        }
    }

    private void items(String heading, List<Item> items) {
        List<Item> told = items.stream()
                .filter(i -> !i.names().isEmpty() || !i.words().isEmpty())
                .toList();
        if (!told.isEmpty()) {
            section(heading);
            told.forEach(this::item);
        }
    }

    private void item(Item item) {
        String names = item.names().stream().map(ManPage::bold).collect(Collectors.joining(", "));
        String value = item.value().isEmpty() ? "" : "\\fI" + escaped(item.value()) + "\\fR";
        term(item.takesValue() ? names + "=" + value : names + value, item.words());
    }

    private void section(String heading) {
        raw(".SH " + quoted(heading));
    }

    private void term(String term, String words) {
        raw(".TP");
        raw(term);
        words(words);
    }

    private void paragraphs(List<String> paragraphs) {
        for (int i = 0; i < paragraphs.size(); i++) {
            if (i > 0) {
                raw(".PP");
            }
            words(paragraphs.get(i));
        }
    }

    private void asIs(List<String> lines) {
        raw(".nf");
        lines.forEach(l -> raw(line(l)));
        raw(".fi");
    }

    private void words(String words) {
        raw(line(words.strip()));
    }

    private void raw(String line) {
        text.append(line).append('\n');
    }

    private static String bold(String words) {
        return "\\fB" + escaped(words) + "\\fR";
    }

    private static String quoted(String words) {
        return "\"" + escaped(words).replace("\"", "\\(dq") + "\"";
    }

    /** A line of text; a dot or a quote in front would make it a request. */
    private static String line(String words) {
        String escaped = escaped(words);
        return escaped.startsWith(".") || escaped.startsWith("'") || escaped.isEmpty() ? "\\&" + escaped : escaped;
    }

    /** A hyphen is meant as typed; a tilde and a caret would be printed as accents. */
    private static String escaped(String words) {
        StringBuilder escaped = new StringBuilder();
        words.codePoints().forEach(c -> {
            switch (c) {
                case '\\' -> escaped.append("\\e");
                case '-' -> escaped.append("\\-");
                case '~' -> escaped.append("\\(ti");
                case '^' -> escaped.append("\\(ha");
                case '\'' -> escaped.append("\\(aq");
                case '`' -> escaped.append("\\(ga");
                default -> {
                    if (c < 0x7f) {
                        escaped.append((char) c);
                    } else {
                        escaped.append(String.format(Locale.ROOT, "\\[u%04X]", c));
                    }
                }
            }
        });
        return escaped.toString();
    }

    /** As the line under NAME wants it: it goes on from the name. */
    private static String lowered(String words) {
        return words.isEmpty() ? words : Character.toLowerCase(words.charAt(0)) + words.substring(1);
    }
}
