package chainage.bookkeeping;

import chainage.command.CommandContext;
import chainage.ledger.Ledger;
import chainage.table.Known;
import chainage.typed.Names;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import picocli.CommandLine.Model.OptionSpec;

/** The words that a table may hold: the rider's names, and what the commands can be told. */
public final class KnownWords {
    private KnownWords() {}

    /**
     * All of them.
     *
     * @param context that knows the commands
     */
    public static Known of(CommandContext context, Ledger ledger) {
        Set<String> products = new HashSet<>(Names.takenByProducts(ledger));
        Map<String, Map<String, Boolean>> options = new HashMap<>();
        for (String command : Known.commands()) {
            Map<String, Boolean> its = new HashMap<>();
            for (OptionSpec o : context.runner()
                    .declared(context, List.of(command.split(" ")))
                    .options()) {
                boolean fact = !o.inherited()
                        && !o.usageHelp()
                        && !o.versionHelp()
                        && !LineReader.NOT_HERE.contains(o.longestName());
                if (fact) {
                    its.put(
                            o.longestName().substring(2).toLowerCase(Locale.ROOT),
                            o.arity().max() > 0);
                }
            }
            options.put(command, its);
        }
        return new Known(ledger.chains().keySet(), ledger.bikes().keySet(), products, options);
    }
}
