package padward.format.design;

import java.io.IOException;
import java.nio.file.Files;
import java.util.Arrays;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.base.SideWork;
import padward.design.Design;
import padward.design.board.Board;
import padward.design.compact.CompactDesign;
import padward.fabric.Fabric;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;
import padward.format.compact.Beside;
import padward.format.compact.Copies;
import padward.format.compact.CopySort;
import padward.format.design.DesignForm.DesignFile;
import padward.format.source.FileLimits;
import padward.format.source.Source;
import padward.format.source.SourceDigest;

/**
 * The compact copy of one design's file. It contains the names of the files of its fabric and
 * board, the digest of the fabric's, and the design ({@link CompactDesign#write}), which counts on
 * that fabric only. The board is read from its own file: no part of the design depends on it.
 */
final class DesignCopies {
    /**
     * To be raised also when a pattern would be made to a fabric whose vertices, sites, pins or
     * edges are in another order.
     */
    static final CopySort SORT = new CopySort("design", "PADWARD DESIGN \n", 1);

    private final Copies copies;
    private final Source source;
    private final DesignForm.Fabrics fabrics;
    private final Progress progress;

    DesignCopies(Copies copies, Source source, DesignForm.Fabrics fabrics, Progress progress) {
        this.copies = copies;
        this.source = source;
        this.fabrics = fabrics;
        this.progress = progress;
    }

    /** The copy of a source; empty when none is made of it. */
    static Optional<DesignCopies> of(Source source, DesignForm.Fabrics fabrics, Progress progress) {
        return Copies.of(source, SORT).map(c -> new DesignCopies(c, source, fabrics, progress));
    }

    /**
     * The design from its copy, if there is a sound one.
     *
     * @throws BadInput when the source cannot be read
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled
     */
    Optional<Design> find() throws BadInput {
        return copies.find(source, this::read, progress);
    }

    private Design read(CompactIn in) throws IOException {
        String fabricName = in.text();
        String boardName = in.text();
        byte[] digest = in.bytes();
        WatchedFabric watched = new WatchedFabric();
        Beside meanwhile = new Beside(progress);
        try {
            Source fabricFile = beside(fabricName);
            watched.note(fabricFile);
            Damaged.unless(watched.has(digest), "another fabric");
            Fabric fabric = fabrics.read(fabricFile, progress);
            Board board =
                    boardName.isEmpty()
                            ? Board.UNKNOWN
                            : BoardReader.read(beside(boardName), fabric, progress);
            SideWork<Boolean, BadInput> unchanged =
                    new SideWork<>(() -> watched.isUnchanged(meanwhile));
            unchanged.offer();
            Design design = CompactDesign.read(in, fabric, board, FileLimits.REQUIRED_PS);
            Damaged.unless(unchanged.get(), "another fabric");
            return design;
        } catch (BadInput fault) {
            // reading the design's own file will report it, if it is one
            throw new Damaged("a file that it names cannot be read");
        } finally {
            meanwhile.end();
        }
    }

    private Source beside(String name) throws Damaged {
        return source.findBeside(name).orElseThrow(() -> new Damaged("a name of no file"));
    }

    /**
     * Reads the design from its own file and keeps a copy.
     *
     * @throws BadInput when this file, or one that it names, cannot be read or has a fault
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled
     */
    Design read() throws BadInput {
        WatchedFabric watched = new WatchedFabric();
        return copies.read(
                        source,
                        () ->
                                new DesignForm(source, watched::read, progress)
                                        .form()
                                        .read(source, progress),
                        (file, out) -> write(file, watched, out),
                        progress)
                .design();
    }

    private void write(DesignFile file, WatchedFabric watched, CompactOut out)
            throws IOException, BadInput {
        Damaged.unless(watched.isUnchanged(progress), "a fabric that was written meanwhile");
        out.text(file.fabric());
        out.text(file.board());
        out.bytes(watched.digest.orElseThrow().bytes());
        CompactDesign.write(out, file.design());
    }

    /** The file of a fabric with its digest from before it was read. */
    private final class WatchedFabric {
        private Source file;

        /** Empty for what is no file, such as a device, which may never end. */
        private Optional<SourceDigest> digest = Optional.empty();

        void note(Source of) throws BadInput {
            file = of;
            digest = digestNow(progress);
        }

        Fabric read(Source of, Progress asked) throws BadInput {
            note(of);
            return fabrics.read(of, asked);
        }

        boolean has(byte[] bytes) {
            return digest.isPresent() && Arrays.equals(digest.get().bytes(), bytes);
        }

        /** Whether it is a file that has the same bytes still, and so was read from these. */
        boolean isUnchanged(Progress asked) throws BadInput {
            return digest.isPresent() && digestNow(asked).equals(digest);
        }

        private Optional<SourceDigest> digestNow(Progress asked) throws BadInput {
            return file instanceof Source.OfFile at && Files.isRegularFile(at.file())
                    ? Optional.of(SourceDigest.of(file, asked))
                    : Optional.empty();
        }
    }
}
