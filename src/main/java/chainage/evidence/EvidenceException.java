package chainage.evidence;

import java.util.List;

/** A file of evidence with lines that cannot be. Nothing of it is taken: half a rider would mislead. */
public final class EvidenceException extends Exception {
    private static final long serialVersionUID = 1;

    /** A line, by its number from 1, and what is wrong with it. */
    public record BadLine(long line, String what) {}

    private final transient List<BadLine> lines;

    EvidenceException(List<BadLine> lines) {
        super(lines.toString());
        this.lines = List.copyOf(lines);
    }

    /** At least one, by number. */
    public List<BadLine> lines() {
        return lines;
    }
}
