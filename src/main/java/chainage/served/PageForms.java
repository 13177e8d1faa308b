package chainage.served;

import chainage.analysis.Analysis;
import chainage.answer.EventWords;
import chainage.attribution.AttributedRide;
import chainage.ledger.Grit;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.page.Form;
import chainage.render.Formatter;
import chainage.standing.Standing;
import chainage.typed.Tags;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/**
 * Forms made of what the commands declare: a field for each parameter and option, its help theirs, and what is filled in
 * put together to the command line that a rider would type.
 */
final class PageForms {
    /** So many rides are offered; older ones are for the terminal. Our choice. */
    private static final int OFFERED = 30;

    private static final String WHOLE = "100";

    /**
     * A command that may be carried out from the page.
     *
     * @param command its words
     * @param options those that are asked for
     * @param several the parameter that may be given several times at once; empty where none may
     */
    record Saying(List<String> command, List<String> options, String several) {
        private Saying(String command, String several, String... options) {
            this(List.of(command.split(" ")), List.of(options), several);
        }

        String id() {
            return String.join("-", command);
        }
    }

    /** In the order shown: every day's first. */
    static final List<Saying> ALL = List.of(
            new Saying("treat", "CHAIN", "--on", "--cleaning", "--amount", "--minutes", "--heard"),
            new Saying("tag", "RIDE", "--withdraw"),
            new Saying("remark", "", "--on"),
            new Saying(
                    "measure",
                    "",
                    "--length",
                    "--gauge",
                    "--tool",
                    "--pitches",
                    "--error",
                    "--inside",
                    "--roller-play",
                    "--on"),
            new Saying("install", "", "--on", "--swap"),
            new Saying("remove", "", "--on"),
            new Saying("assign", "RIDE", "--bike", "--not-a-ride", "--a-ride"),
            new Saying("import", ""),
            new Saying("bike add", "", "--rings", "--cogs", "--wheel", "--no-chain", "--default"),
            new Saying("chain add", "", "--speeds", "--links", "--limit", "--price", "--used", "--stripped"),
            new Saying("product add", "", "--method", "--price", "--amount", "--per-treatment", "--minutes"));

    /** A question that has a page of its own. */
    static final Saying RIDES = new Saying("rides", "", "--bike", "--chain", "--road", "--unattributed", "--sort");

    /**
     * A field, and how what is filled in becomes a word.
     *
     * @param flag the option's name; empty for a parameter
     * @param suffix what follows the value
     * @param splits whether a semicolon parts several values
     * @param usual what stands for nothing said; empty where that is an empty field
     * @param preset what stands there at first
     */
    private record Slot(
            String name,
            String label,
            String help,
            Form.Input input,
            String flag,
            String suffix,
            boolean splits,
            String usual,
            String preset) {
        List<String> words(List<String> filled) {
            List<String> words = new ArrayList<>();
            for (String value : filled) {
                for (String one : splits ? value.split(";", -1) : new String[] {value}) {
                    String v = one.strip();
                    if (!v.isEmpty() && !v.equals(usual)) {
                        words.add(
                                input instanceof Form.Input.Tick
                                        ? flag
                                        : (flag.isEmpty() ? "" : flag + "=") + v + suffix);
                    }
                }
            }
            return words;
        }
    }

    private final Saying saying;
    private final List<Slot> slots = new ArrayList<>();
    private final Analysis analysis;
    private final Formatter format;

    /**
     * The form of a command.
     *
     * @param spec what the command declares
     */
    PageForms(Saying saying, CommandSpec spec, Analysis analysis, Formatter format) {
        this.saying = saying;
        this.analysis = analysis;
        this.format = format;
        for (PositionalParamSpec p : spec.positionalParameters()) {
            if (p.paramLabel().equals(Tags.LABEL)) {
                roads();
            } else if (saying.equals(RIDES)) {
                slots.add(new Slot("ride", "month", "", one(months(), false), "", "", false, "", ""));
            } else {
                slots.add(slot(p, "", name(p.paramLabel())));
            }
        }
        for (String option : saying.options()) {
            OptionSpec o = spec.findOption(option);
            slots.add(slot(o, o.longestName(), o.longestName().substring(2)));
        }
    }

    static String name(String label) {
        return label.matches("[A-Z]+") ? label.toLowerCase(Locale.ROOT) : "what";
    }

    /** A tag's words, each a choice of its own. */
    private void roads() {
        slots.add(new Slot("ride", "ride", "", new Form.Input.Several(rides()), "", "", false, "", ""));
        slots.add(choice("moisture", Arrays.stream(Moisture.values()).map(Moisture::word)));
        slots.add(new Slot("share", "share, %", "", new Form.Input.Slide(0, 100, 5), "", "%", false, WHOLE, WHOLE));
        slots.add(choice("grit", Arrays.stream(Grit.values()).map(Grit::word)));
    }

    private static Slot choice(String name, Stream<String> words) {
        return new Slot(name, name, "", one(words.toList(), false), "", "", false, "", "");
    }

    private Slot slot(ArgSpec arg, String flag, String name) {
        String label = arg.paramLabel();
        boolean given = flag.isEmpty() && arg.arity().min() > 0;
        // The name of what is added is not there to be chosen.
        boolean fresh = flag.isEmpty() && saying.command().contains("add");
        List<String> words = fresh ? List.of() : words(label);
        Form.Input input = flag.isEmpty() || arg.arity().max() > 0
                ? label.equals("RIDE")
                        ? new Form.Input.Several(rides())
                        : label.equals(saying.several())
                                ? new Form.Input.Several(options(words))
                                : words.isEmpty() ? new Form.Input.Line() : one(words, given)
                : new Form.Input.Tick();
        String usual = arg.defaultValue() == null || input instanceof Form.Input.Tick ? "" : arg.defaultValue();
        return new Slot(
                name,
                name.replace('-', ' '),
                plain(String.join(" ", arg.description())),
                input,
                flag,
                "",
                arg.isMultiValue() && (!flag.isEmpty() || label.equals("VALUE")),
                usual,
                usual.isEmpty() && given && !fresh ? preset(label) : usual);
    }

    /** What may stand there; nothing where it cannot be listed. */
    private List<String> words(String label) {
        return switch (label) {
            case "CHAIN" -> chains();
            case "BIKE" -> List.copyOf(analysis.ledger().bikes().keySet());
            case "PRODUCT" ->
                Stream.concat(analysis.ledger().products().keySet().stream(), methods())
                        .distinct()
                        .toList();
            case "METHOD" -> methods().toList();
            default -> label.contains("|") ? List.of(label.split("\\|")) : List.of();
        };
    }

    private static Stream<String> methods() {
        return Arrays.stream(Method.values()).map(Method::word);
    }

    /** Nearest its limit first. */
    private List<String> chains() {
        Set<String> chains = new LinkedHashSet<>();
        analysis.standings().forEach(s -> chains.add(s.chain()));
        chains.addAll(analysis.ledger().chains().keySet());
        return List.copyOf(chains);
    }

    private String preset(String label) {
        if (analysis.standings().isEmpty()) {
            return "";
        }
        Standing nearest = analysis.standings().get(0);
        return switch (label) {
            case "CHAIN" -> nearest.chain();
            case "PRODUCT" ->
                nearest.exposure().treatedAt() == null
                        ? ""
                        : nearest.exposure().product().product();
            default -> "";
        };
    }

    private static Form.Input one(Collection<String> words, boolean given) {
        List<Form.Option> options = new ArrayList<>(options(words));
        if (!given) {
            options.add(0, new Form.Option("", "–"));
        }
        return new Form.Input.One(options);
    }

    private static List<Form.Option> options(Collection<String> words) {
        return words.stream().map(w -> new Form.Option(w, w)).toList();
    }

    /** The latest first; where rides are to be given to a bike, those that have none. */
    private List<Form.Option> rides() {
        List<AttributedRide> bare = analysis.rides().stream()
                .filter(r -> r.counted() && r.bike() == null)
                .toList();
        List<AttributedRide> offered = saying.options().contains("--bike") && !bare.isEmpty()
                ? bare
                : analysis.rides().stream().filter(AttributedRide::counted).toList();
        List<Form.Option> options = new ArrayList<>();
        for (int i = offered.size() - 1; i >= Math.max(0, offered.size() - OFFERED); i--) {
            options.add(new Form.Option(offered.get(i).id(), label(offered.get(i))));
        }
        return options;
    }

    /** With rides in them, the latest first. */
    private List<String> months() {
        Set<String> months = new LinkedHashSet<>();
        for (int i = analysis.rides().size() - 1; i >= 0; i--) {
            months.add(YearMonth.from(format.localDay(
                            analysis.rides().get(i).filed().ride().start()))
                    .toString());
        }
        return List.copyOf(months);
    }

    private String label(AttributedRide r) {
        List<String> parts = new ArrayList<>(List.of(
                format.time(r.filed().ride().start()),
                format.distance(analysis.exposures().metresOf(r))));
        String bike = r.bike();
        parts.add(bike == null ? "–" : bike);
        parts.add(r.filed().ride().labels().title().strip());
        analysis.ledger().flags(r.id()).ifPresent(f -> parts.add(EventWords.flags(f.moisture(), f.share(), f.grit())));
        parts.removeIf(String::isEmpty);
        return String.join(", ", parts);
    }

    /** In a help text a sign of per cent is doubled. */
    static String plain(String declared) {
        return declared.replace("%%", "%");
    }

    /**
     * The fields.
     *
     * @param filled what was filled in; empty at first
     * @param trouble what the command line says of it; empty where nothing is wrong
     */
    List<Form.Field> fields(Map<String, List<String>> filled, String trouble) {
        String at = at(filled, trouble);
        return slots.stream()
                .map(s -> new Form.Field(
                        s.name(),
                        s.label(),
                        s.help(),
                        s.input(),
                        filled.isEmpty()
                                ? s.preset().isEmpty() ? List.of() : List.of(s.preset())
                                : filled.getOrDefault(s.name(), List.of()),
                        s.name().equals(at) ? trouble : ""))
                .toList();
    }

    /** The field that is meant: whose option is named, else whose value is quoted; empty where none is. */
    String at(Map<String, List<String>> filled, String trouble) {
        return Stream.concat(
                        slots.stream()
                                .filter(s -> !s.flag().isEmpty()
                                        && trouble.matches("(?s).*" + s.flag() + "(?![a-z-]).*")
                                        && !s.words(filled.getOrDefault(s.name(), List.of()))
                                                .isEmpty()),
                        slots.stream()
                                .filter(s -> filled.getOrDefault(s.name(), List.of()).stream()
                                        .flatMap(v -> Arrays.stream(v.split(";", -1)))
                                        .anyMatch(v -> trouble.contains("\"" + v.strip() + "\""))))
                .map(Slot::name)
                .findFirst()
                .orElse("");
    }

    /** What was filled in, without what else was sent. */
    Map<String, List<String>> own(Map<String, List<String>> sent) {
        Map<String, List<String>> own = new java.util.TreeMap<>(sent);
        own.keySet().retainAll(slots.stream().map(Slot::name).toList());
        return own;
    }

    /** The command line. What was filled in is the value of an option, or stands where no word is taken for one. */
    List<String> words(Map<String, List<String>> filled) {
        List<String> words = new ArrayList<>(saying.command());
        List<String> parameters = new ArrayList<>();
        for (Slot s : slots) {
            (s.flag().isEmpty() ? parameters : words).addAll(s.words(filled.getOrDefault(s.name(), List.of())));
        }
        if (!parameters.isEmpty()) {
            words.add("--");
            words.addAll(parameters);
        }
        return words;
    }
}
