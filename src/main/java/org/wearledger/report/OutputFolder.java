package org.wearledger.report;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Writes a folder whole or not at all: it is filled beside its target under a hidden name and renamed when complete, so
 * a failed or killed run never leaves a half-written result under the target's name. A run that is killed in the moment between the two
 * renamings of a replacement leaves the earlier output under the hidden name; the next run puts it back first.
 */
public final class OutputFolder {
    private static final Set<String> MARKERS = Set.of(SweepWriter.MACHINES_CSV, SweepWriter.SUMMARY_MD);

    private static final String NEW = "out";
    private static final String OLD = "old";

    private OutputFolder() {
    }

    /**
     * Lets {@code fill} write into a hidden folder beside the target, then puts that in the target's place.
     *
     * @param overwrite allows the replacement of an earlier sweep's folder, never of other files
     * @param access who may read it
     * @param fill writes into the folder it is given
     * @throws OutputRefusedException as {@link #check}, before and after {@code fill} ran
     * @throws IOException when the disk refuses, or what {@code fill} threw; the target is then as it was
     */
    public static void write(Path target, boolean overwrite, Access access, IOConsumer<Path> fill) throws IOException {
        check(target, overwrite);
        Path place = target.toAbsolutePath().normalize();
        if (place.getParent() == null) {
            throw new OutputRefusedException(target + " is the root of a disk: choose a fresh folder");
        }
        Files.createDirectories(place.getParent());
        // Whatever goes wrong is what the user hears of; a tidying up that fails as well is only added to it.
        try (WorkFolder work = WorkFolder.in(place.getParent(), prefix(place))) {
            // A folder of its own inside, since a temporary folder is closed to everybody else.
            Path partial = Files.createDirectory(work.path().resolve(NEW));
            fill.accept(partial);
            Sealed.seal(partial, access);
            // The disk may have changed while the sweep ran.
            refuseWhatIsThere(target, overwrite);
            replace(place, partial, work);
            Sealed.force(place.getParent());
        }
    }

    static String prefix(Path place) {
        return "." + place.getFileName() + ".partial-";
    }

    /**
     * Refuses what {@link #write} would refuse, before any work is done, and clears away what killed runs left of their work for this
     * target.
     *
     * @throws OutputRefusedException when the target is a file, a folder with anything in it and {@code overwrite} is false, a
     *     folder that holds more or other than a sweep's outputs, or lies where nothing can be written
     */
    public static void check(Path target, boolean overwrite) throws IOException {
        Path place = target.toAbsolutePath().normalize();
        if (place.getParent() != null) {
            requireWritable(target, place.getParent());
            WorkFolder.clearAbandoned(place.getParent(), prefix(place), work -> holdsTheOnlyOutput(work, place));
        }
        refuseWhatIsThere(target, overwrite);
    }

    /** Puts the earlier output back if its replacement was broken off, unless something else has taken its place. */
    private static boolean holdsTheOnlyOutput(Path work, Path place) throws IOException {
        Path old = work.resolve(OLD);
        // Without the new one the replacement was done.
        if (!Files.exists(old) || !Files.exists(work.resolve(NEW))) {
            return false;
        }
        boolean free = !Files.exists(place, LinkOption.NOFOLLOW_LINKS) || Files.isDirectory(place) && names(place).isEmpty();
        if (free) {
            Files.deleteIfExists(place);
            Files.move(old, place);
        }
        return !free;
    }

    static void requireWritable(Path target, Path parent) throws IOException {
        Path there = parent;
        while (there != null && !Files.exists(there)) {
            there = there.getParent();
        }
        if (there != null && !(Files.isDirectory(there) && Files.isWritable(there))) {
            throw new OutputRefusedException(target + " cannot be written: " + there + (Files.isDirectory(there) ? " is read-only or belongs to somebody else"
                : " is no folder") + "; choose another place");
        }
    }

    private static void refuseWhatIsThere(Path target, boolean overwrite) throws IOException {
        if (!Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
            return;
        }
        if (!Files.isDirectory(target, LinkOption.NOFOLLOW_LINKS)) {
            throw new OutputRefusedException(target + " is not a folder: choose a fresh folder");
        }
        Set<String> names = names(target);
        if (names.isEmpty()) {
            return;
        }
        if (!overwrite) {
            throw new OutputRefusedException(target + " is not empty: choose a fresh folder or pass --overwrite");
        }
        if (!names.containsAll(MARKERS)) {
            throw new OutputRefusedException(target + " was not written by this program (it lacks "
                + SweepWriter.MACHINES_CSV + " or " + SweepWriter.SUMMARY_MD
                + ") and is left as it is: choose a fresh folder");
        }
        String strangers = names.stream().filter(name -> !SweepWriter.FILE_NAMES.contains(name)).sorted().limit(3)
            .collect(Collectors.joining(", "));
        if (!strangers.isEmpty()) {
            throw new OutputRefusedException(target + " also holds files this program did not write (" + strangers
                + ") and is left as it is: move them away or choose a fresh folder");
        }
    }

    private static void replace(Path place, Path partial, WorkFolder work) throws IOException {
        Path old = work.path().resolve(OLD);
        if (!Files.exists(place)) {
            Files.move(partial, place);
            return;
        }
        try {
            Files.move(place, old);
        } catch (IOException e) {
            throw new OutputRefusedException(place + " cannot be replaced: close its files in other programs and run "
                + "again, or choose a fresh folder", e);
        }
        try {
            Files.move(partial, place);
        } catch (IOException e) {
            putBack(old, place, work);
            throw e;
        }
    }

    private static void putBack(Path old, Path place, WorkFolder work) throws IOException {
        try {
            Files.move(old, place);
        } catch (IOException e) {
            work.keep();
            throw new OutputRefusedException(place + " could be neither replaced nor put back: the earlier output lies in " + old + "; move it back by hand", e);
        }
    }

    private static Set<String> names(Path folder) throws IOException {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.map(entry -> entry.getFileName().toString()).collect(Collectors.toSet());
        }
    }
}
