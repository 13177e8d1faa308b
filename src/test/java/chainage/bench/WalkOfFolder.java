package chainage.bench;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;

/** The least that a second look at a folder must do: list it, with each file's size and time. Argument: folder. */
final class WalkOfFolder {
    private WalkOfFolder() {}

    public static void main(String[] args) throws IOException {
        long[] sums = new long[3];
        Files.walkFileTree(Path.of(args[0]), new SimpleFileVisitor<>() {
            @Override
            public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
                sums[0]++;
                sums[1] += attributes.size();
                sums[2] ^= attributes.lastModifiedTime().toMillis();
                return FileVisitResult.CONTINUE;
            }
        });
        System.out.println(sums[0] + " files, " + sums[1] + " bytes, " + sums[2]);
    }
}
