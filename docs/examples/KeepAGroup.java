import padward.api.Finding;
import padward.api.FinishedDesign;
import padward.api.FoundGroup;
import padward.api.Signature;
import padward.base.BadInput;
import java.nio.file.Path;
import java.util.List;

/** Brings a vector out on a header, keeps it, and writes a ledger and a changed copy. */
public final class KeepAGroup {
    private KeepAGroup() {}

    /** Arguments: the design's file, a pattern of nets, a header, the ledger, the copy. */
    public static void main(String[] arguments) throws BadInput {
        FinishedDesign design = FinishedDesign.open(Path.of(arguments[0]));
        FoundGroup group = design.group(List.of(arguments[1]), List.of("header " + arguments[2]));
        for (FoundGroup.Line line : group.lines()) {
            System.out.println(line.net().name() + " on pad " + line.pad().name());
        }
        System.out.println(group.cost());
        // What can do harm on the board has to be accepted by name; here, nothing is.
        FinishedDesign changed =
                design.keep(group, Signature.of("bench").noting("nightly measurement"));
        changed.saveLedger(Path.of(arguments[3]));
        changed.writeCopy(Path.of(arguments[4]));
        FoundGroup.Line first = group.lines().get(0);
        Finding again = changed.ask(first.net().name(), first.pad().name());
        System.out.println(again.sentence());
    }
}
