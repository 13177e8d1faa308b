package chainage.ridefile;

import chainage.ridefile.xml.XmlBrokenException;
import chainage.ridefile.xml.XmlReader;

/** One XML document while it is read: its activities in order, and what becomes of them when the XML breaks. */
public abstract class XmlDocument {
    private static final String MEND = "export it again";

    private static final String APART = "if it is another ride, cut it off into a file of its own";

    /** Stands in the document's root. */
    protected final XmlReader in;

    /** Takes what is found. */
    protected final Findings findings;

    /** How many activities have begun. */
    protected int activities;

    /** A document whose root {@code in} has entered. */
    protected XmlDocument(XmlReader in, Findings findings) {
        this.in = in;
        this.findings = findings;
    }

    /**
     * Reads it all.
     *
     * @throws RideFileException when the XML breaks before anything usable
     */
    public final void read() throws RideFileException {
        try {
            document();
            int more = in.more();
            if (more > 0) {
                findings.pass(activities, true, "more stands behind the end of the XML, at line " + more, APART);
            }
        } catch (XmlBrokenException e) {
            String broken = e.why() + " at line " + e.line();
            if (salvage(broken)) {
                return;
            }
            if (findings.isEmpty()) {
                throw new RideFileException(broken + ", before any dated point", MEND, e.torn());
            }
            findings.pass(activities, true, broken + ", what follows is lost", MEND);
        }
    }

    /** Reads the root's children. */
    protected abstract void document() throws XmlBrokenException;

    /** Hands on what there is of the activity that was being read; false when nothing in it is dated. */
    protected abstract boolean salvage(String broken);
}
