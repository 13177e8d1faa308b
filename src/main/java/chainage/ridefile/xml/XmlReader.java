package chainage.ridefile.xml;

import com.ctc.wstx.api.WstxInputProperties;
import com.ctc.wstx.stax.WstxInputFactory;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.codehaus.stax2.XMLInputFactory2;

/**
 * Walks through an XML document, element by element, by lower-case names without prefixes.
 *
 * <p>Namespaces are not asked for: devices and converters leave them out, name wrong ones, and use prefixes that they
 * never declare. A document type is refused, since ride files have none and it is the door for entity bombs.
 */
public final class XmlReader {
    private static final int DEEPEST = 100;
    private static final int LONGEST_TEXT = 100_000;
    private static final int MOST_NAMES = 500;
    private static final int MOST_ATTRIBUTES = 10_000;

    private static final XMLInputFactory FACTORY = factory();

    private final XMLStreamReader in;
    private final byte[] content;
    private final Map<String, String> locals = new HashMap<>();
    private final StringBuilder text = new StringBuilder();
    private int depth;
    private String name = "";
    private String root = "";

    /** Starts at the root element. */
    public XmlReader(byte[] content) throws XmlBrokenException {
        this.content = content;
        try {
            in = FACTORY.createXMLStreamReader(XmlText.reader(content));
        } catch (XMLStreamException | RuntimeException e) {
            throw new XmlBrokenException("not readable as XML", 1, false, e);
        }
        depth = 0;
        if (!nextChild(0)) {
            throw new XmlBrokenException("no XML element", 1);
        }
        root = name;
    }

    /** One for all: it is not changed any more, and names that files have in common are made once. */
    private static XMLInputFactory factory() {
        WstxInputFactory factory = new WstxInputFactory();
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        factory.setProperty(XMLInputFactory.IS_NAMESPACE_AWARE, false);
        factory.setProperty(XMLInputFactory2.P_INTERN_NAMES, false);
        // What is wrong with a text shows where it is passed, not where it is asked for.
        factory.setProperty(XMLInputFactory2.P_LAZY_PARSING, false);
        // How deep is our affair.
        factory.setProperty(WstxInputProperties.P_MAX_ELEMENT_DEPTH, Integer.MAX_VALUE);
        factory.setProperty(WstxInputProperties.P_MAX_ATTRIBUTES_PER_ELEMENT, MOST_ATTRIBUTES);
        factory.setXMLResolver((publicId, systemId, base, namespace) -> {
            throw new XMLStreamException("external entities are not read");
        });
        return factory;
    }

    /** Depth of the current element; the root has 1. */
    public int depth() {
        return depth;
    }

    /** Lower-case local name of the element last entered. */
    public String name() {
        return name;
    }

    /** Line of the text, from 1. */
    public int line() {
        return Math.max(1, in.getLocation().getLineNumber());
    }

    /** Enters the next child of the element at {@code parent}, past whatever is left of the one before. */
    public boolean nextChild(int parent) throws XmlBrokenException {
        return next(parent, parent + 1);
    }

    /** Enters the next element anywhere below the one at {@code ancestor}. */
    public boolean nextBelow(int ancestor) throws XmlBrokenException {
        return next(ancestor, DEEPEST);
    }

    private boolean next(int above, int deepest) throws XmlBrokenException {
        if (depth < above) {
            return false;
        }
        while (true) {
            int event = advance();
            if (event == XMLStreamConstants.START_ELEMENT && depth <= deepest) {
                return true;
            }
            if ((event == XMLStreamConstants.END_ELEMENT && depth < above)
                    || event == XMLStreamConstants.END_DOCUMENT) {
                return false;
            }
        }
    }

    /** Text of the current element up to its end, stripped; text of elements inside it is left out. */
    public String text() throws XmlBrokenException {
        int of = depth;
        text.setLength(0);
        while (true) {
            int event = advance();
            if ((event == XMLStreamConstants.CHARACTERS || event == XMLStreamConstants.CDATA)
                    && depth == of
                    && text.length() < LONGEST_TEXT) {
                text.append(in.getTextCharacters(), in.getTextStart(), in.getTextLength());
            } else if (event == XMLStreamConstants.END_DOCUMENT
                    || (event == XMLStreamConstants.END_ELEMENT && depth < of)) {
                return text.toString().strip();
            }
        }
    }

    /** An attribute of the current element by its name in any case and with any prefix; empty when absent. */
    public String attribute(String wanted) {
        for (int i = 0; i < in.getAttributeCount(); i++) {
            if (local(in.getAttributeLocalName(i)).equals(wanted)) {
                return in.getAttributeValue(i).strip();
            }
        }
        return "";
    }

    /**
     * Goes to the end of the text, once the root element's end is passed.
     *
     * @return the line on which something else stands than comments, instructions and space (XML 1.0, rule 1); 0 where
     *     nothing does
     */
    public int more() {
        try {
            int event = in.getEventType();
            while (event != XMLStreamConstants.END_DOCUMENT) {
                event = in.next();
                if (event == XMLStreamConstants.START_ELEMENT) {
                    return line();
                }
            }
            return 0;
        } catch (XMLStreamException | RuntimeException e) {
            return line(e);
        }
    }

    private int advance() throws XmlBrokenException {
        try {
            int event = in.next();
            if (event == XMLStreamConstants.START_ELEMENT) {
                depth++;
                name = local(in.getLocalName());
                if (depth > DEEPEST) {
                    throw new XmlBrokenException("elements nested deeper than " + DEEPEST, line());
                }
            } else if (event == XMLStreamConstants.END_ELEMENT) {
                depth--;
            } else if (event == XMLStreamConstants.DTD) {
                throw new XmlBrokenException("a document type (<!DOCTYPE …>), which no ride file has,", line());
            } else if (event == XMLStreamConstants.ENTITY_REFERENCE) {
                throw new XmlBrokenException("an entity that is not defined", line());
            }
            return event;
        } catch (XMLStreamException | RuntimeException e) {
            throw broken(e);
        }
    }

    private XmlBrokenException broken(Exception e) {
        int line = line(e);
        boolean torn = depth > 0 && onLastLine(line) && !rootIsClosed();
        return new XmlBrokenException(torn ? "the XML ends too early" : "the XML is broken", line, torn, e);
    }

    /** Where it went wrong, which may be far behind where the parser's present piece began. */
    private int line(Exception e) {
        return e instanceof XMLStreamException x && x.getLocation() != null
                ? Math.max(1, x.getLocation().getLineNumber())
                : line();
    }

    /** True when the text's last tag closes an element of the root's name. */
    private boolean rootIsClosed() {
        int from = Math.max(0, content.length - 400);
        String tail = new String(content, from, content.length - from, StandardCharsets.ISO_8859_1)
                .replace("\0", "")
                .strip()
                .toLowerCase(Locale.ROOT);
        return tail.substring(tail.lastIndexOf('<') + 1).matches("/([^>]*:)?" + Pattern.quote(root) + "\\s*>");
    }

    private boolean onLastLine(int line) {
        int lines = 1;
        for (byte b : content) {
            lines += b == '\n' ? 1 : 0;
        }
        return line >= lines - 1;
    }

    /** Names come again and again; of a file that invents them without end not all are kept. */
    private String local(String qualified) {
        String local = locals.get(qualified);
        if (local == null) {
            local = qualified.substring(qualified.indexOf(':') + 1).toLowerCase(Locale.ROOT);
            if (locals.size() < MOST_NAMES) {
                locals.put(qualified, local);
            }
        }
        return local;
    }
}
