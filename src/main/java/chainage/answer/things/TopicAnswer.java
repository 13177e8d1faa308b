package chainage.answer.things;

import chainage.answer.Listing;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Json;
import chainage.render.Out;
import java.util.List;

/**
 * How figures come about.
 *
 * @param topic its name
 * @param text over several lines
 * @param answers what answers hold for scripts; empty for a topic that does not ask for it
 */
public record TopicAnswer(String topic, String text, List<Fields> answers) implements Answer {
    /** A topic in the list, and what it is about. */
    public record Topic(String name, String what) {}

    /**
     * What one form of answer holds.
     *
     * @param commands that give it
     */
    public record Fields(List<String> commands, Columns<?> columns) {}

    public static final Listing<Topic> LIST = new Listing<>(
            "topics",
            "as a rider meets them",
            Columns.of(
                    Column.<Topic>id("topic", "its name", Topic::name).head("TOPIC"),
                    Column.<Topic>prose("what", "it is about", Topic::what).head("WHAT")),
            "");

    private static final Columns<Columns.Field> FIELD = Columns.of(
            Column.<Columns.Field>id("name", "with the names of the objects that it lies in", Columns.Field::name),
            Column.<Columns.Field>word(
                    "unit", "what its values are", f -> f.unit().words()),
            Column.<Columns.Field>word("meaning", "what it tells", Columns.Field::meaning));

    private static final Columns<Fields> ANSWERS = Columns.of(
            Column.<Fields>list("commands", "that give the answer", Fields::commands),
            Column.<Fields, Columns.Field>rows(
                    "fields", "in their order", FIELD, a -> a.columns().fields()));

    /** What scripts get. */
    public static final Columns<TopicAnswer> FIELDS = Columns.of(
            Column.<TopicAnswer>id("topic", "its name", TopicAnswer::topic),
            Column.<TopicAnswer>word("text", "over several lines", TopicAnswer::text),
            Column.<TopicAnswer, Fields>rows(
                    "answers", "what answers hold, for the topic that lists it", ANSWERS, TopicAnswer::answers));

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        text.lines().forEach(out::line);
        for (Fields a : answers) {
            out.line();
            out.line(String.join(", ", a.commands()));
            a.columns()
                    .fields()
                    .forEach(f -> out.line(2, f.name() + " (" + f.unit().words() + "): " + f.meaning()));
        }
    }
}
