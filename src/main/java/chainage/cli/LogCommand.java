package chainage.cli;

import chainage.answer.EventWords;
import chainage.ledger.Entry;
import chainage.ledger.Ledger;
import chainage.render.Json;
import chainage.render.Table;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "log",
        description = "Every fact you stated, by number, with those taken back marked. Nothing is ever deleted.",
        footer = {"Examples:", "  chainage log", "  chainage log --last 5"})
final class LogCommand extends Action {
    @Option(names = "--last", paramLabel = "N", description = "only the last N")
    int last = Integer.MAX_VALUE;

    @Override
    public Integer call() {
        CommandContext context = context();
        List<Entry> entries = context.load().entries();
        Set<Long> inForce = new HashSet<>();
        Ledger.of(entries).inForce().forEach(e -> inForce.add(e.number()));
        if (last < 1) {
            throw CliError.usage("--last " + last + " shows nothing", "give 1 or more");
        }
        List<Json> list = new ArrayList<>();
        Table table = new Table().right("NO").whole("WRITTEN").left("FACT").whole("");
        for (Entry e : entries.subList(Math.max(0, entries.size() - last), entries.size())) {
            boolean holds = inForce.contains(e.number());
            String text = EventWords.of(e.event(), context.format());
            table.row(Long.toString(e.number()), context.format().time(e.recorded()), text, holds ? "" : "taken back");
            list.add(new Json()
                    .put("number", e.number())
                    .put("recorded", e.recorded())
                    .put("fact", text)
                    .put("in_force", holds));
        }
        return context.list("entries", list, table, "nothing stated yet; begin with: chainage bike add NAME");
    }
}
