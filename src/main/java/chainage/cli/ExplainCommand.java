package chainage.cli;

import chainage.host.Resource;
import chainage.render.Json;
import chainage.render.Table;
import java.util.ArrayList;
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
final class ExplainCommand extends Action {
    private static final String FOLDER = "/chainage/explain/";

    @Parameters(index = "0", arity = "0..1", paramLabel = "TOPIC", description = "one of the list (else the list)")
    @Nullable
    String topic;

    /** Topics by name, each with what it is about; every one has a text of its own beside the list. */
    static Map<String, String> topics() {
        Map<String, String> topics = new LinkedHashMap<>();
        for (String line : Resource.text(FOLDER + "topics.tsv").lines().toList()) {
            int tab = line.indexOf('\t');
            topics.put(line.substring(0, tab), line.substring(tab + 1));
        }
        return topics;
    }

    @Override
    public Integer call() {
        Map<String, String> topics = topics();
        if (topic == null) {
            List<Json> list = new ArrayList<>();
            Table table = new Table().whole("TOPIC").left("WHAT");
            topics.forEach((name, what) -> {
                table.row(name, what);
                list.add(new Json().put("topic", name).put("what", what));
            });
            return context().list("topics", list, table, "");
        }
        if (!topics.containsKey(topic)) {
            throw CliError.usage(
                    "there is no topic \"" + topic + "\"", "use one of " + String.join(", ", topics.keySet()));
        }
        String text = Resource.text(FOLDER + topic + ".txt");
        if (context().json()) {
            context().out().json(new Json().put("topic", topic).put("text", text));
        } else {
            text.lines().forEach(context().out()::line);
        }
        return ExitCode.OK.code();
    }
}
