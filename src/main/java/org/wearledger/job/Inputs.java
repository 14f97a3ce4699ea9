package org.wearledger.job;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.function.ToLongFunction;
import java.util.stream.Stream;
import org.wearledger.history.Limits;
import org.wearledger.intake.FileSummary;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.InputMissingException;
import org.wearledger.intake.Mappings;
import org.wearledger.intake.PackFolder;
import org.wearledger.intake.ReportFile;
import org.wearledger.intake.ShareCheck;
import org.wearledger.model.Finding;
import org.wearledger.model.MappingUse;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/** What a request is for, found and opened, before a report is read: the first step of every job. */
record Inputs(SweepRequest request, FoundFiles found, SideTableSet tables, List<PackFolder> packs, Mappings mappings, Limits limits) {

    /** @throws InputMissingException when one of them is not there or cannot serve as what it is named for */
    static Inputs of(SweepRequest request) throws IOException {
        return of(request, false);
    }

    /** @param underItsMappingAlone without the mappings of folders */
    static Inputs of(SweepRequest request, boolean underItsMappingAlone) throws IOException {
        FoundFiles found = FoundFiles.find(request.reports());
        Mappings mappings = Mappings.load(request.mapping(), underItsMappingAlone ? List.of() : found.mappings(), found.packs(), request.pseudonyms());
        SideTableSet tables = SideTableSet.load(request, found, mappings);
        List<PackFolder> packs = new ArrayList<>();
        for (ReportFile folder : found.packs()) {
            PackFolder pack = found.packs().size() == 1 ? PackFolder.read(folder) : PackFolder.read(folder).amongOthers();
            packs.add(new PackFolder(folder, pack.contents(), request.pseudonyms().problems(pack.problems()), pack.place()));
        }
        return new Inputs(request, found, tables, packs, mappings, request.limits());
    }

    /** The same files for a request with other limits. */
    Inputs under(SweepRequest other) throws IOException {
        return new Inputs(other, found, SideTableSet.load(other, found, mappings), packs, mappings, other.limits());
    }

    /** A count added up over packs. */
    long inPacks(ToLongFunction<PackFolder.Contents> count) {
        return packs.stream().map(PackFolder::contents).mapToLong(count).sum();
    }

    /** Files that are no reports, by name, as they may be printed. */
    List<String> passedOver() {
        Stream<String> inPacks = packs.stream().flatMap(pack -> pack.contents().passedOver().stream());
        return request.pseudonyms().files(Stream.concat(found.passedOver().stream(), inPacks).sorted().toList());
    }

    /** Which mapping serves which reports; not those of packs, where they serve none. */
    List<MappingUse> mappingUses() {
        return mappings.uses(found.reports(), found.packs());
    }

    /** @throws InputMissingException when packs do not hold the readings that they say */
    void requireWhole(List<IntakeTally> tallies) throws InputMissingException {
        for (PackFolder pack : packs) {
            long held = tallies.stream().mapToLong(tally -> tally.packed().getOrDefault(pack.folder().name(), 0L)).sum();
            if (held != pack.contents().readings()) {
                throw PackFolder.damaged(pack.folder(), "it says " + pack.contents().readings() + " readings and holds " + held);
            }
        }
    }

    /**
     * What reading gave, over all files and packs.
     *
     * @param problems of files and records
     * @param filesFound without raw pages that a record names: they count with the record
     * @param filesRead those read to their end
     * @param readings those that packs gave only where they were read
     */
    record Read(Collection<FileSummary> files, List<Problem> problems, long filesFound, long filesRead, long records, long readings) {
    }

    /** Each side of each sum is counted where it arises, so that a sum that does not hold is seen. */
    Read read(List<IntakeTally> tallies) {
        Collection<FileSummary> files = FileSummary.added(tallies.stream().flatMap(tally -> tally.files().stream()).toList()).values();
        List<Problem> problems = new ArrayList<>(ShareCheck.withoutPercent(tallies.stream().flatMap(tally -> tally.problems().stream()).toList(), files, request.pseudonyms()));
        files.forEach(file -> problems.addAll(file.problems(mappings.of(file.file()))));
        List<ReportFile> pages = found.pagesNotNamed(files);
        problems.addAll(request.pseudonyms().problems(pages.stream().map(page -> Problem.of(Finding.PAGE_FILE_NOT_NAMED, SourcePlace.wholeFile(page.name()), "")).toList()));
        packs.forEach(pack -> problems.addAll(pack.problems()));
        return new Read(files, problems, found.reports().size() + pages.size() + inPacks(PackFolder.Contents::filesFound), files.stream().filter(FileSummary::isReadToTheEnd).count() + inPacks(PackFolder.Contents::filesRead),
            tallies.stream().mapToLong(IntakeTally::recordsOfFiles).sum() + inPacks(PackFolder.Contents::records),
            tallies.stream().mapToLong(IntakeTally::readings).sum());
    }
}
