package chainage.command;

import chainage.analysis.Analysis;
import chainage.ledger.Ledger;
import chainage.typed.Names;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import picocli.CommandLine.Option;

/** Whose part of a shared ledger an answer is about: that of some bikes, and of the chains on them. */
public final class BikeChoice {
    @Option(
            names = "--bike",
            paramLabel = "BIKE",
            description = "only this bike, its chains and rides; may be repeated")
    public List<String> bikes = List.of();

    /** The bikes' names; empty for all. */
    public Set<String> names(Ledger ledger) {
        Set<String> names = new LinkedHashSet<>();
        bikes.forEach(b -> names.add(Names.bike(ledger, b)));
        return names;
    }

    /** What concerns them. */
    public Analysis of(Analysis analysis) {
        return analysis.about(names(analysis.ledger()));
    }
}
