package padward.format.design;

import com.google.gson.stream.JsonToken;
import java.nio.file.Path;
import java.util.List;
import padward.base.BadInput;
import padward.base.Progress;
import padward.base.WholeFile;
import padward.format.json.JsonIn;
import padward.format.source.Source;

/**
 * The files that a design names.
 *
 * @param fabric name of the fabric's file, relative to the design's
 * @param board name of the board's file; empty for none
 */
public record References(String fabric, String board) {
    /** Reads no more of a design than these names. */
    public static References of(Path design) throws BadInput {
        String fabric = "";
        String board = "";
        try (JsonIn in = new JsonIn(Source.of(design), Progress.NONE)) {
            in.beginObject();
            while (in.more()) {
                String name = in.memberName();
                boolean text = in.peek() == JsonToken.STRING;
                if (text && name.equals("fabric")) {
                    fabric = in.name();
                } else if (text && name.equals("board")) {
                    board = in.name();
                } else {
                    in.skip();
                }
            }
        }
        return new References(fabric, board);
    }

    /** A design's file and the files that it names. */
    public List<Path> files(Path design) {
        Path folder = design.toAbsolutePath().getParent();
        return board.isEmpty()
                ? List.of(design, folder.resolve(fabric))
                : List.of(design, folder.resolve(fabric), folder.resolve(board));
    }

    /**
     * The same files, named from where a changed copy of a design is to be written.
     *
     * @throws BadInput when the copy would replace the design or a file that it names, also through
     *     a link
     */
    public References forCopy(Path design, Path copy) throws BadInput {
        for (Path input : files(design)) {
            if (WholeFile.isSame(copy, input)) {
                throw new BadInput(
                        copy.toString(),
                        "",
                        "the name of a file other than the design's, its fabric's and its board's,"
                                + " which are never changed",
                        "the file " + input.getFileName());
            }
        }
        return seenFrom(design, copy);
    }

    /** The same files, named from another folder. */
    public References seenFrom(Path design, Path other) {
        Path from = design.toAbsolutePath().getParent();
        Path to = other.toAbsolutePath().getParent();
        return new References(moved(from, to, fabric), moved(from, to, board));
    }

    private static String moved(Path from, Path to, String name) {
        if (name.isEmpty() || from.equals(to)) {
            return name;
        }
        return to.relativize(from.resolve(name).normalize()).toString().replace('\\', '/');
    }
}
