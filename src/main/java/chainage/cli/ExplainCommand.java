package chainage.cli;

import chainage.answer.things.TopicAnswer;
import chainage.command.Question;
import chainage.host.Resource;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import chainage.typed.Guesses;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(
        name = "explain",
        description = "How the figures come about: formulas, symbols, units, assumptions and sources, a topic a page.",
        footer = {"Examples:", "  chainage explain", "  chainage explain conditions"})
public final class ExplainCommand extends Question {
    private static final String FOLDER = "/chainage/explain/";

    /** The topic that lists what the answers hold. */
    private static final String ANSWERS = "json";

    @Parameters(index = "0", arity = "0..1", paramLabel = "TOPIC", description = "one of the list (else the list)")
    @Nullable
    String topic;

    /** Topics by name, each with what it is about; every one has a text of its own beside the list. */
    public static Map<String, String> topics() {
        Map<String, String> topics = new LinkedHashMap<>();
        for (String line : Resource.text(FOLDER + "topics.tsv").lines().toList()) {
            int tab = line.indexOf('\t');
            topics.put(line.substring(0, tab), line.substring(tab + 1));
        }
        return topics;
    }

    @Override
    public boolean needsLedger() {
        return false;
    }

    @Override
    public List<Columns<?>> fields() {
        return List.of(TopicAnswer.LIST.fields(), TopicAnswer.FIELDS);
    }

    @Override
    public Answer answer() {
        Map<String, String> topics = topics();
        if (topic == null) {
            return TopicAnswer.LIST.of(
                    topics.entrySet().stream()
                            .map(e -> new TopicAnswer.Topic(e.getKey(), e.getValue()))
                            .toList(),
                    context().format());
        }
        if (!topics.containsKey(topic)) {
            throw CliError.usage(
                    "there is no topic \"" + topic + "\"",
                    Guesses.hint(
                            Guesses.Of.TOPIC,
                            topic,
                            topics.keySet(),
                            "use one of " + String.join(", ", topics.keySet())));
        }
        return new TopicAnswer(
                topic, Resource.text(FOLDER + topic + ".txt"), topic.equals(ANSWERS) ? Commands.answers() : List.of());
    }
}
