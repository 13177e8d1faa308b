package chainage.cli;

import chainage.answer.things.TopicAnswer;
import chainage.command.Question;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import chainage.typed.Guesses;
import chainage.typed.Topics;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(
        name = "explain",
        description = "How the figures come about: formulas, symbols, units, assumptions and sources, a topic a page.",
        footer = {"Examples:", "  chainage explain", "  chainage explain conditions"})
final class ExplainCommand extends Question {
    /** The topic that lists what the answers hold. */
    private static final String ANSWERS = "json";

    @Parameters(index = "0", arity = "0..1", paramLabel = "TOPIC", description = "one of the list (else the list)")
    @Nullable
    String topic;

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
        Map<String, String> topics = Topics.all();
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
        return new TopicAnswer(topic, Topics.text(topic), topic.equals(ANSWERS) ? Commands.answers() : List.of());
    }
}
