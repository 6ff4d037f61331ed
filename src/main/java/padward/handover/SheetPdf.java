package padward.handover;

import com.openhtmltopdf.extend.FSObjectDrawer;
import com.openhtmltopdf.extend.OutputDevice;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.render.DefaultObjectDrawerFactory;
import com.openhtmltopdf.render.RenderingContext;
import com.openhtmltopdf.util.XRLog;
import java.awt.Shape;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.List;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.w3c.dom.Element;
import padward.design.Design;

/**
 * A bench sheet as PDF, made from the same page as the HTML. Text is text, drawings are vectors,
 * fonts are embedded; nothing is downloaded.
 */
public final class SheetPdf {
    private static final String FAMILY = "Liberation Sans";

    /** Referenced here because a logger without a reference loses its level. */
    private static final Logger PDF_LOG = Logger.getLogger("org.apache.pdfbox");

    static {
        XRLog.setLoggingEnabled(false);
        // It warns about standard fonts that the machine lacks; the page has its own.
        PDF_LOG.setLevel(Level.SEVERE);
    }

    private SheetPdf() {}

    /**
     * Writes the sheet.
     *
     * @param design the design with the ledger applied
     * @param made when the sheet is made, in words
     * @throws IOException when the stream cannot be written
     */
    public static void write(
            BenchSheet sheet, Design design, String made, SheetPage.Paper paper, OutputStream out)
            throws IOException {
        SheetPage page = SheetPage.forPdf(sheet, design, made, paper);
        DefaultObjectDrawerFactory drawers = new DefaultObjectDrawerFactory();
        Outlines outlines = Outlines.read();
        drawers.registerDrawer("padward/drawing", new Drawer(page.drawings(), outlines));
        PdfRendererBuilder builder = new PdfRendererBuilder();
        builder.withHtmlContent(page.text(), null);
        builder.useObjectDrawerFactory(drawers);
        builder.useUriResolver((base, uri) -> null);
        builder.useFont(() -> font("Regular"), FAMILY, 400, FontStyle.NORMAL, true);
        builder.useFont(() -> font("Bold"), FAMILY, 700, FontStyle.NORMAL, true);
        builder.withProducer("Padward");
        builder.toStream(out);
        builder.run();
    }

    /** One of the Liberation Sans fonts (SIL Open Font License 1.1), from the library of fonts. */
    static InputStream font(String weight) {
        String name = "/liberation/LiberationSans-" + weight + ".ttf";
        InputStream font = SheetPdf.class.getResourceAsStream(name);
        if (font == null) {
            throw new IllegalStateException("the library of fonts has no " + name);
        }
        return font;
    }

    /** Replaces the page's objects by drawings. */
    private record Drawer(List<Drawing> drawings, Outlines outlines) implements FSObjectDrawer {
        @Override
        public Map<Shape, String> drawObject(
                Element element,
                double x,
                double y,
                double width,
                double height,
                OutputDevice device,
                RenderingContext context,
                int dotsPerPixel) {
            Drawing drawing = drawings.get(Integer.parseInt(element.getAttribute("data")));
            device.drawWithGraphics(
                    (float) x,
                    (float) y,
                    (float) width / dotsPerPixel,
                    (float) height / dotsPerPixel,
                    g -> {
                        double scale = width / dotsPerPixel / drawing.width();
                        g.scale(scale, scale);
                        GraphicsDrawing.paint(drawing, g, outlines);
                    });
            return null;
        }
    }
}
