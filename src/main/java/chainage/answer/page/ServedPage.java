package chainage.answer.page;

import chainage.page.Block;
import chainage.page.Form;
import chainage.page.Page;
import java.util.ArrayList;
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
     * @param fields to be filled in
     */
    public record Saying(String id, String title, List<String> help, List<String> care, List<Form.Field> fields) {
        public Saying {
            help = List.copyOf(help);
            care = List.copyOf(care);
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
     * @param figures whether it is of a kind that moves figures
     */
    public record Told(
            List<String> said, List<String> moved, List<String> remarks, List<Long> entries, boolean figures) {
        public Told {
            said = List.copyOf(said);
            moved = List.copyOf(moved);
            remarks = List.copyOf(remarks);
            entries = List.copyOf(entries);
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
        done.forEach(told -> lead.add(new Block.Notice(done(told))));
        for (Block b : page.lead()) {
            lead.add(b instanceof Block.Words w && w.tone() == Block.Tone.COMMAND ? noted(treat) : b);
        }
        List<Block> folds = new ArrayList<>();
        sayings.forEach(s -> folds.add(new Block.Fold(s.title(), blocks(s, ""))));
        List<Page.Part> parts = new ArrayList<>(List.of(new Page.Part("note", ServedWords.NOTE, folds, List.of())));
        parts.addAll(page.parts());
        List<Block> colophon = new ArrayList<>(page.colophon());
        colophon.add(sheet("end", Map.of(), new Form.Button(ServedWords.END, "end")));
        return new Page(page.title(), page.kicker(), page.heading(), lead, page.opening(), parts, colophon);
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
        if (told.entries().isEmpty()) {
            return told.blocks();
        }
        blocks.add(Block.words(ServedWords.DONE));
        blocks.addAll(told.blocks());
        blocks.add(sheet(
                "back",
                Map.of(ENTRY, told.entries().stream().map(String::valueOf).toList()),
                new Form.Button(ServedWords.TAKE_BACK, "undo")));
        return blocks;
    }

    private List<Block> blocks(Saying s, String trouble) {
        List<Block> blocks = new ArrayList<>();
        s.help().forEach(line -> blocks.add(Block.note(line)));
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
