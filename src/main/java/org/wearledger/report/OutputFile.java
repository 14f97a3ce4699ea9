package org.wearledger.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** Writes one file whole or not at all. */
public final class OutputFile {
    private OutputFile() {
    }

    /**
     * Refuses what {@link #write} would refuse, before any work is done.
     *
     * @throws OutputRefusedException when the target is a folder, or is there and {@code overwrite} is false
     */
    public static void check(Path target, boolean overwrite) throws IOException {
        Path place = target.toAbsolutePath().normalize();
        if (place.getParent() != null) {
            OutputFolder.requireWritable(target, place.getParent());
            WorkFolder.clearAbandoned(place.getParent(), OutputFolder.prefix(place), work -> false);
        }
        if (Files.isDirectory(target, LinkOption.NOFOLLOW_LINKS)) {
            throw new OutputRefusedException(target + " is a folder: name a file in it, such as page.html");
        }
        if (!overwrite && Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
            throw new OutputRefusedException(target + " is there already: choose another name or pass --overwrite");
        }
    }

    /**
     * Writes {@code text} as UTF-8 under another name beside the target, then renames it; missing folders are made.
     *
     * @param access who may read it
     * @throws OutputRefusedException when the target is a folder, or is there and may not be replaced
     * @throws IOException when the disk refuses; the target is then as it was
     */
    public static void write(Path target, boolean overwrite, Access access, String text) throws IOException {
        check(target, overwrite);
        Path place = target.toAbsolutePath().normalize();
        Files.createDirectories(place.getParent());
        // Beside its target under another name, then renamed: never half a page.
        try (WorkFolder work = WorkFolder.in(place.getParent(), OutputFolder.prefix(place))) {
            Path partial = Files.writeString(work.path().resolve("page"), text, StandardCharsets.UTF_8);
            Sealed.seal(partial, access);
            Files.move(partial, place, StandardCopyOption.ATOMIC_MOVE);
            Sealed.force(place.getParent());
        }
    }
}
