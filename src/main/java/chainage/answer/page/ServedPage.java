package chainage.answer.page;

import chainage.answer.rides.RidesAnswer;
import chainage.page.Block;
import chainage.page.Form;
import chainage.page.MeasurePicture;
import chainage.page.Page;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Pages of a site: the page of the chains with what can be done there, and the small ones between. */
public final class ServedPage {
    /** The field that says which command a form is of. */
    public static final String FORM = "form";

    /** The field that says of which facts a page was made. */
    public static final String STATE = "state";

    /** The field with the number of a fact to be taken back. */
    public static final String ENTRY = "no";

    /** The place of the rides. */
    public static final String RIDES = "rides";

    /** So many rides are listed. Our choice. */
    private static final int LISTED = 500;

    /** The place that files are sent to, and their field. */
    public static final String FILES = "files";

    /** The field by which a script says which portions of files belong together; empty for one that is whole. */
    public static final String PORTION = "portion";

    /** The field with names of files that a script has not sent, since they are too large. */
    public static final String TOO_LARGE = "large";

    /** More of them do not fit in a form. */
    private static final int MOST_RIDES = 3000;

    private final Map<String, List<String>> hidden;

    /** @param hidden what every form sends along */
    public ServedPage(Map<String, List<String>> hidden) {
        this.hidden = Map.copyOf(hidden);
    }

    /**
     * A command that can be carried out.
     *
     * @param id of its form
     * @param title what it does
     * @param help more of that, a sentence or several each
     * @param care what must not be forgotten when doing it
     * @param shown between its help and its fields
     * @param fields to be filled in
     */
    public record Saying(
            String id, String title, List<String> help, List<String> care, List<Block> shown, List<Form.Field> fields) {
        public Saying {
            help = List.copyOf(help);
            care = List.copyOf(care);
            shown = List.copyOf(shown);
            fields = List.copyOf(fields);
        }
    }

    /**
     * What a command said and moved.
     *
     * @param said a line each
     * @param moved before → after, a line each
     * @param remarks what else is to be known
     * @param entries numbers of the facts that were written; empty where none were
     * @param rides ids of those that were brought in; empty where none were
     * @param figures whether it is of a kind that moves figures
     */
    public record Told(
            List<String> said,
            List<String> moved,
            List<String> remarks,
            List<Long> entries,
            List<String> rides,
            boolean figures) {
        public Told {
            said = List.copyOf(said);
            moved = List.copyOf(moved);
            remarks = List.copyOf(remarks);
            entries = List.copyOf(entries);
            rides = List.copyOf(rides);
        }

        private List<Block> blocks() {
            List<Block> blocks = new ArrayList<>();
            said.forEach(line -> blocks.add(Block.words(line)));
            if (!moved.isEmpty()) {
                blocks.add(new Block.Lines(moved));
            } else if (figures) {
                blocks.add(Block.words(ServedWords.NO_FIGURE));
            }
            remarks.forEach(line -> blocks.add(Block.words(line)));
            return blocks;
        }
    }

    private Map<String, List<String>> hidden(Map<String, List<String>> more) {
        Map<String, List<String>> all = new LinkedHashMap<>(hidden);
        all.putAll(more);
        return all;
    }

    /**
     * The page of the chains as it is served.
     *
     * @param sayings what can be noted, the most used first
     * @param treat what to send for the treatment that is advised, by field; empty where there is none
     * @param done what was done just now, a block each
     */
    public Page of(Page page, List<Saying> sayings, Map<String, List<String>> treat, List<Told> done) {
        List<Block> lead = new ArrayList<>();
        done.forEach(told -> lead.add(new Block.Notice(led(done(told), sayings))));
        for (Block b : page.lead()) {
            lead.addAll(
                    b instanceof Block.Words w && w.tone() == Block.Tone.COMMAND
                            ? List.of(noted(treat))
                            : led(List.of(b), sayings));
        }
        List<Block> folds = new ArrayList<>();
        String next = next(page.lead(), sayings);
        sayings.stream()
                .sorted(Comparator.comparing(s -> !s.id().equals(next)))
                .forEach(s -> folds.add(new Block.Fold(s.title(), blocks(s, ""), place(s), s.id().equals(next))));
        List<Page.Part> parts = new ArrayList<>(List.of(new Page.Part("note", ServedWords.NOTE, folds, List.of())));
        parts.add(new Page.Part(
                RIDES, ServedWords.RIDES, List.of(new Block.Way(ServedWords.ALL_RIDES, RIDES)), List.of()));
        page.parts().forEach(p -> parts.add(new Page.Part(p.id(), p.title(), p.intro(), led(p, sayings))));
        List<Block> colophon = new ArrayList<>(page.colophon());
        colophon.add(sheet("end", Map.of(), new Form.Button(ServedWords.END, "end")));
        return new Page(page.title(), page.kicker(), page.heading(), lead, page.opening(), parts, colophon);
    }

    private static String place(Saying s) {
        return "note-" + s.id();
    }

    private static List<Page.Section> led(Page.Part part, List<Saying> sayings) {
        return part.sections().stream()
                .map(s -> new Page.Section(s.id(), s.title(), s.note(), led(s.blocks(), sayings)))
                .toList();
    }

    /** Blocks, and behind each that says what to type the way to the form that does the same. */
    private static List<Block> led(List<Block> blocks, List<Saying> sayings) {
        List<Block> led = new ArrayList<>();
        for (Block b : blocks) {
            led.add(b);
            sayings.stream()
                    .filter(s -> names(b, s))
                    .forEach(s -> led.add(new Block.Way(ServedWords.here(s.title()), "#" + place(s))));
        }
        return led;
    }

    /** The form of the first command that is to be typed; empty where there is none. */
    private static String next(List<Block> lead, List<Saying> sayings) {
        return lead.stream()
                .flatMap(b -> sayings.stream().filter(s -> names(b, s)))
                .map(Saying::id)
                .findFirst()
                .orElse("");
    }

    private static boolean names(Block block, Saying s) {
        String command = "chainage " + s.id().replace('-', ' ') + " ";
        List<String> lines = block instanceof Block.Words w
                ? List.of(w.text())
                : block instanceof Block.Lines l ? l.lines() : List.of();
        return lines.stream().anyMatch(line -> (line + " ").contains(command));
    }

    private Block noted(Map<String, List<String>> treat) {
        return treat.isEmpty()
                ? new Block.Way(ServedWords.NOTE_HERE, "#note")
                : sheet("now", treat, new Form.Button(ServedWords.TREATED_NOW, "look"));
    }

    private Block sheet(String id, Map<String, List<String>> sent, Form.Button... buttons) {
        return new Block.Sheet(new Form(id, List.of(), hidden(sent), List.of(buttons), ""));
    }

    private List<Block> done(Told told) {
        List<Block> blocks = new ArrayList<>();
        if (!told.entries().isEmpty()) {
            blocks.add(Block.words(ServedWords.DONE));
        }
        blocks.addAll(told.blocks());
        if (!told.entries().isEmpty()) {
            blocks.add(sheet(
                    "back",
                    Map.of(ENTRY, told.entries().stream().map(String::valueOf).toList()),
                    new Form.Button(ServedWords.TAKE_BACK, "undo")));
        }
        if (!told.rides().isEmpty() && told.rides().size() <= MOST_RIDES) {
            // A ride that was read is no fact of the rider's; that it is to be left out is one.
            blocks.add(sheet(
                    "out",
                    Map.of(FORM, List.of("assign"), "ride", told.rides(), "not-a-ride", List.of("yes")),
                    new Form.Button(ServedWords.LEAVE_OUT, "look")));
        }
        return blocks;
    }

    /**
     * What files are handed over by.
     *
     * @param most bytes that may be sent at once
     * @param trouble what is wrong; empty where nothing is
     */
    public List<Block> files(int most, String trouble) {
        Form.Field files =
                new Form.Field(FILES, "files", ServedWords.FILES, new Form.Input.Files(most), List.of(), trouble);
        return List.of(
                new Block.Sheet(new Form(
                        FILES,
                        List.of(files),
                        hidden(Map.of(PORTION, List.of(""), TOO_LARGE, List.of(""))),
                        List.of(new Form.Button(ServedWords.TAKE_IN, FILES)),
                        "")),
                Block.note(ServedWords.BY_PATH));
    }

    /** The same by itself. */
    public Page filesAlone(int most, String trouble) {
        return small(ServedWords.TAKE_IN, List.of(files(most, trouble).get(0), new Block.Way(ServedWords.LEAVE, "./")));
    }

    /** A page for a script that has sent one of several portions of files: it goes on from there. */
    public static Page portion(String place) {
        return small(ServedWords.READING, List.of(new Block.Way(ServedWords.GO_ON, place)));
    }

    private List<Block> blocks(Saying s, String trouble) {
        List<Block> blocks = new ArrayList<>();
        s.help().forEach(line -> blocks.add(Block.note(line)));
        blocks.addAll(s.shown());
        blocks.add(new Block.Sheet(new Form(
                s.id(),
                s.fields(),
                hidden(Map.of(FORM, List.of(s.id()))),
                List.of(new Form.Button(ServedWords.SEE, "look")),
                trouble)));
        s.care().forEach(line -> blocks.add(new Block.Words(Block.Tone.CARE, line)));
        return blocks;
    }

    /**
     * A form by itself.
     *
     * @param trouble what is wrong with it, where that is not at a field; empty where nothing is
     */
    public Page form(Saying s, String trouble) {
        List<Block> blocks = new ArrayList<>(blocks(s, trouble));
        blocks.add(new Block.Way(ServedWords.LEAVE, "./"));
        return small(s.title(), blocks);
    }

    /**
     * What a form would change.
     *
     * @param filled what was filled in
     * @param state of the facts that it was reckoned from
     * @param stale whether they are others than those looked at before
     */
    public Page look(Saying s, Told told, Map<String, List<String>> filled, String state, boolean stale) {
        List<Block> blocks = new ArrayList<>();
        if (stale) {
            blocks.add(new Block.Notice(List.of(Block.words(ServedWords.STALE))));
        }
        blocks.addAll(told.blocks());
        Map<String, List<String>> sent = new LinkedHashMap<>(filled);
        sent.put(FORM, List.of(s.id()));
        sent.put(STATE, List.of(state));
        blocks.add(sheet(
                "do", sent, new Form.Button(ServedWords.DO_IT, "do"), new Form.Button(ServedWords.OTHERWISE, "edit")));
        s.care().forEach(line -> blocks.add(new Block.Words(Block.Tone.CARE, line)));
        blocks.add(new Block.Way(ServedWords.LEAVE, "./"));
        return small(ServedWords.WILL, blocks);
    }

    /** Rides that were asked for, the last of them first. */
    public Page rides(Saying s, RidesAnswer answer) {
        List<Block> blocks = new ArrayList<>(List.of(ask(s, "")));
        answer.nothing().forEach(line -> blocks.add(Block.words(line)));
        List<RidesAnswer.Row> rows = new ArrayList<>(answer.rows());
        if (!rows.isEmpty()) {
            Collections.reverse(rows);
            blocks.add(Block.words(answer.sum() + "."));
            if (rows.size() > LISTED) {
                blocks.add(Block.note(ServedWords.listed(LISTED)));
            }
            blocks.add(new Block.Table(RidesAnswer.COLUMNS.grid(
                    ServedWords.RIDES, rows.subList(0, Math.min(LISTED, rows.size())), answer.format(), true)));
        }
        blocks.add(new Block.Way(ServedWords.GO_ON, "./"));
        return small(ServedWords.RIDES, blocks);
    }

    /** The same where it was asked for what is not understood. */
    public Page ridesRefused(Saying s, String trouble) {
        return small(ServedWords.RIDES, List.of(ask(s, trouble), new Block.Way(ServedWords.GO_ON, "./")));
    }

    private static Block ask(Saying s, String trouble) {
        return new Block.Sheet(new Form(
                s.id(), s.fields(), Map.of(), List.of(new Form.Button(ServedWords.SHOW, RIDES)), trouble, true));
    }

    /** How a chain is measured, in a picture. */
    public static Block howToMeasure() {
        return new Block.Figure(MeasurePicture.plot(ServedWords.MEASURE_TITLE, ServedWords.MEASURE));
    }

    /** A page with nothing but a heading and a few sentences. */
    public static Page words(String heading, List<String> sentences) {
        return small(heading, sentences.stream().map(Block::words).toList());
    }

    /** The same with the way back to the page. */
    public static Page trouble(List<String> sentences) {
        List<Block> blocks =
                new ArrayList<>(sentences.stream().map(Block::words).toList());
        blocks.add(new Block.Way(ServedWords.GO_ON, "./"));
        return small(ServedWords.SHUT, blocks);
    }

    private static Page small(String heading, List<Block> blocks) {
        return new Page("chainage: " + heading, "chainage", heading, blocks, List.of(), List.of(), List.of());
    }
}
