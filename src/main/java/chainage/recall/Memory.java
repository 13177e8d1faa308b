package chainage.recall;

import chainage.analysis.Analysis;
import chainage.analysis.Gleaned;
import chainage.analysis.Snapshot;
import chainage.host.Program;
import chainage.quantity.ContentDigest;
import chainage.quantity.LocalClock;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What a command takes from what earlier ones worked out, and leaves for later ones: see {@link Recall}. */
public final class Memory implements Gleaned.Kept {
    private final @Nullable Recall recall;
    private final Path ledger;
    private final String zone;
    private @Nullable Snapshot facts;
    private String state = "";
    private @Nullable Glean glean;
    private boolean doubted;
    private boolean wrong;

    /** What others have shown, as this command knows it: a change asks for it before and after. */
    private record Glean(ContentDigest content, Gleaned figures) {}

    /**
     * Of one ledger.
     *
     * @param environment that names the cache; without it nothing is kept
     * @param zone by which dates are told where no ride says otherwise
     */
    public Memory(Map<String, String> environment, Path ledger, String zone) {
        this.recall = recall(environment);
        this.ledger = ledger;
        this.zone = zone;
    }

    private static @Nullable Recall recall(Map<String, String> environment) {
        String cache = environment.getOrDefault("XDG_CACHE_HOME", "");
        String home = environment.getOrDefault("HOME", "");
        try {
            Path folder = Path.of(cache.isEmpty() ? home : cache);
            return folder.isAbsolute()
                    ? new Recall((cache.isEmpty() ? folder.resolve(".cache") : folder).resolve("chainage/kept"))
                    : null;
        } catch (InvalidPathException e) {
            return null;
        }
    }

    private Recall.Key key() throws IOException {
        return new Recall.Key(LedgerFile.real(ledger), LedgerFile.look(ledger), Program.identity(), zone);
    }

    /** Notes of which state of the ledger these facts are, so that what follows from them can be kept. */
    public void loaded(Snapshot all, String ofState) {
        facts = all;
        state = ofState;
    }

    /**
     * Names, as they were kept of the ledger as it lies there.
     *
     * @param names how they are read from it; they are kept then
     */
    public List<String> names(Fresh names) throws IOException {
        if (recall == null || !LedgerFile.isAtRest(ledger)) {
            return names.read();
        }
        Recall.Key key = key();
        List<String> kept = recall.names(key).orElse(null);
        if (kept == null) {
            kept = names.read();
            recall.keep(key, kept);
        }
        return kept;
    }

    /** Reads names from a ledger. */
    public interface Fresh {
        List<String> read() throws IOException;
    }

    /** What is kept of the ledger, by its look from outside; of which state, it says itself. */
    public Optional<Recall.Kept> kept() {
        try {
            return recall == null ? Optional.empty() : recall.of(key());
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    /**
     * Keeps what was worked out.
     *
     * @param of the facts it was worked out from; kept only where it is known of which state they are
     * @param clock with what their rides say
     */
    public void keep(Snapshot of, Analysis analysis, LocalClock clock) {
        if (recall == null || !isKnown(of)) {
            return;
        }
        try {
            Recall.Key key = key();
            boolean known = recall.of(key)
                    .filter(k -> k.state().equals(state) && k.gist().holds(analysis.at()))
                    .isPresent();
            if (!known) {
                analysis.gist(of, clock).ifPresent(gist -> recall.keep(key, new Recall.Kept(state, gist)));
            }
        } catch (IOException e) {
            // Whoever cannot look at the ledger any more need not remember it.
        }
    }

    /** Whether what is kept of these facts is what follows from them; see {@link Recall#agrees}. */
    public boolean agrees(Snapshot of, Analysis analysis, LocalClock clock) throws IOException {
        if (recall == null || !isKnown(of)) {
            return true;
        }
        Recall.Key key = key();
        boolean held = recall.of(key).filter(k -> k.gist().holds(analysis.at())).isPresent();
        return !held
                || analysis.gist(of, clock)
                        .map(gist -> recall.agrees(key, new Recall.Kept(state, gist)))
                        .orElse(true);
    }

    /** From here on what others have shown is worked out anew, and what is kept of it held against that. */
    public void doubt() {
        doubted = true;
    }

    /** Whether what others have shown was kept as something else than what follows from the evidence. */
    public boolean keptWrong() {
        return wrong;
    }

    private Recall.OthersKey othersKey(ContentDigest content) throws IOException {
        return new Recall.OthersKey(LedgerFile.real(ledger), Program.identity(), content);
    }

    @Override
    public Optional<Gleaned> of(ContentDigest content) {
        if (glean == null || !glean.content().equals(content)) {
            if (recall == null || doubted) {
                return Optional.empty();
            }
            try {
                glean = recall.others(othersKey(content))
                        .map(figures -> new Glean(content, figures))
                        .orElse(glean);
            } catch (IOException e) {
                return Optional.empty();
            }
        }
        return Optional.ofNullable(glean)
                .filter(g -> g.content().equals(content))
                .map(Glean::figures);
    }

    @Override
    public void keep(ContentDigest content, Gleaned figures) {
        glean = new Glean(content, figures);
        if (recall == null) {
            return;
        }
        try {
            Recall.OthersKey key = othersKey(content);
            if (doubted) {
                wrong |= !recall.agrees(key, figures);
            } else {
                recall.keep(key, figures);
            }
        } catch (IOException e) {
            // Whoever cannot look at the ledger any more need not remember it.
        }
    }

    @SuppressWarnings("ReferenceEquality") // others that are equal may be of another state
    private boolean isKnown(Snapshot of) {
        return of == facts && !state.isEmpty();
    }
}
