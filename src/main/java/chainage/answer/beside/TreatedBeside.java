package chainage.answer.beside;

import chainage.analysis.Analysis;
import chainage.answer.EventWords;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Installation;
import chainage.quantity.Moment;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What is said beside a treatment. */
public final class TreatedBeside {
    private TreatedBeside() {}

    /**
     * What may have been meant otherwise of one chain.
     *
     * @param again the command, to be given a time
     */
    public static List<String> of(Analysis before, String c, String again, Moment at, Formatter format) {
        List<String> said = new ArrayList<>();
        before.ledger()
                .installationOf(c, at.instant())
                .map(Installation::bike)
                .ifPresent(b -> said.addAll(InstalledBeside.sameDay(before, b, at, again, format)));
        before.facts().treatments(c).stream()
                .filter(t -> format.localDay(t.at()).equals(at.day()))
                .reduce((a, b) -> b)
                .ifPresent(t -> said.add("it was treated that day already ("
                        + number(before, t).map(n -> "entry " + n + ", ").orElse("")
                        + EventWords.of(t, format)
                        + "): was that the same treatment? Then take one back; if both were done, all is right"));
        if (at.bareDate()) {
            before.facts()
                    .noiseSinceTreatment(c)
                    .filter(n -> n.at().isAfter(at.instant())
                            && format.date(n.at()).equals(at.day().toString()))
                    .ifPresent(n -> said.add("you heard it later that day, at "
                            + format.time(n.at()).substring(11)
                            + "; if the treatment came after that, give its time with --on"));
        }
        return said;
    }

    private static Optional<Long> number(Analysis before, Event.Treated treated) {
        return before.facts().facts().stream()
                .filter(e -> e.event().equals(treated))
                .map(Entry::number)
                .reduce((a, b) -> b);
    }
}
