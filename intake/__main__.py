from intake.cli import main

main()
