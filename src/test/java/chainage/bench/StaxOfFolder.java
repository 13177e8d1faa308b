package chainage.bench;

import java.io.ByteArrayInputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/**
 * The straightforward reader of GPX and TCX: pulls all events with the JDK's own parser and reads every text and
 * attribute that is a number. Arguments: folder, threads. Prints how many files and numbers.
 */
final class StaxOfFolder {
    private StaxOfFolder() {}

    public static void main(String[] args) throws Exception {
        List<Path> files;
        try (Stream<Path> all = Files.walk(Path.of(args[0]))) {
            files = all.filter(Files::isRegularFile).toList();
        }
        ExecutorService workers = Executors.newFixedThreadPool(Integer.parseInt(args[1]));
        try {
            List<Callable<Long>> tasks = new ArrayList<>();
            files.forEach(file -> tasks.add(() -> numbers(Files.readAllBytes(file))));
            long numbers = 0;
            for (Future<Long> done : workers.invokeAll(tasks)) {
                numbers += done.get();
            }
            System.out.println(files.size() + " files, " + numbers + " numbers");
        } finally {
            workers.shutdown();
        }
    }

    static long numbers(byte[] content) throws XMLStreamException {
        XMLStreamReader in =
                XMLInputFactory.newDefaultFactory().createXMLStreamReader(new ByteArrayInputStream(content));
        long numbers = 0;
        while (in.hasNext()) {
            int event = in.next();
            if (event == XMLStreamConstants.CHARACTERS) {
                numbers += number(in.getText());
            } else if (event == XMLStreamConstants.START_ELEMENT) {
                for (int i = 0; i < in.getAttributeCount(); i++) {
                    numbers += number(in.getAttributeValue(i));
                }
            }
        }
        return numbers;
    }

    /** 1 for a number. Dates have a colon and would only cost an exception. */
    private static int number(String text) {
        if (text.isBlank() || text.indexOf(':') >= 0 || Character.isLetter(text.charAt(0))) {
            return 0;
        }
        return Double.isNaN(Double.parseDouble(text)) ? 0 : 1;
    }
}
