package chainage.cli;

import chainage.ledger.Event;
import java.util.List;
import picocli.CommandLine.Option;

/** A command that writes facts: it plans them from the picture before, and the desk does the rest. */
abstract class Write extends Action {
    @Option(names = "--dry-run", description = "say what would change, and write nothing")
    boolean dryRun;

    /**
     * What a command is about to write.
     *
     * @param events the facts, at least one
     * @param said what they amount to, one line each
     */
    record Plan(List<Event> events, List<String> said) {
        Plan {
            events = List.copyOf(events);
            said = List.copyOf(said);
        }

        static Plan of(Event event, String... said) {
            return new Plan(List.of(event), List.of(said));
        }
    }

    /** The facts to write, given all that is known now. */
    abstract Plan plan(Picture before);

    @Override
    public final Integer call() {
        return desk().change(this::plan, dryRun);
    }

    final Moment when(String typed) {
        return desk().moment(typed);
    }
}
