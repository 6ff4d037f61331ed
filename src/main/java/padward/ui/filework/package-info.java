/** Work on files besides the open design: deskewing, importing, placing and routing. */
package padward.ui.filework;
