/* A good file of each kind; together they are the roster that others are read against.  Part of
 * check_intake.c, which has the faulty ones beside them.
 * SPDX-License-Identifier: GPL-3.0-or-later */

enum kind_of_file {
	RINGS,
	LEVELS,
	GAITS,
	RULES,
	TURNOUTS,
	READINGS,
	READINGS_OF_POINTS,
	POINTS,
	TESTS,
	MOVEMENTS,
	CLASSES,
	ENTRIES,
	MARKS,
	FOOTINGS,
	WISHES,
	PLANS,
	ARTICLES,
	KINDS_OF_FILE
};

#define RINGS_HEAD  "kind,discipline,width_m,length_m,peg,side,offset_m\n"
#define LEVELS_HEAD "level,discipline,turn_diameter_m,reference_height_cm,gait\n"
#define GAITS_HEAD  "gait,speed_m_per_s,stride_m,source\n"
#define RULES_HEAD                                                                                 \
	"rule,scale,wins,base,judge_decimals,percent_decimals,score_decimals,taken,"               \
	"error_1,error_2,error_3,ties,source\n"
#define TURNOUTS_HEAD  "turnout,part,hitch_m,length_m,width_m,track_m,cog_m\n"
#define FOOTINGS_HEAD  "footing,discipline,along_m,along_percent,across_m,across_percent,source\n"
#define READINGS_HEAD  "from,to,distance_m,sigma_m,note\n"
#define POINTS_HEAD    "point,x_m,y_m,fixed\n"
#define TESTS_HEAD     "test,title,kind,level,rule,multiplier\n"
#define MOVEMENTS_HEAD "test,item,letters,movement,figure,gait,coefficient,group,mark_step\n"
#define CLASSES_HEAD   "class,title,test,level,ring,rule,judges,division\n"
#define ENTRIES_HEAD                                                                               \
	"class,number,driver,horses,height_cm,turnout,carriage,groom,club,division,"               \
	"hors_concours,status\n"
#define MARKS_HEAD  "class,number,judge,item,mark,remark\n"
#define WISHES_HEAD "about,name,class,day,not_before,over_by,after,weight\n"
#define PLANS_HEAD                                                                                 \
	"class,ring,day,first,interval_s,break_every,break_after_s,break_s,harrow_every,harrow_s," \
	"order\n"
#define ARTICLES_HEAD "applies_to,article,what,amount_1,amount_2,amount_3,source\n"

static const char *const good[KINDS_OF_FILE] = {
	[RINGS] = RINGS_HEAD "field,driven,40,80,A,a,20\n"
			     "field,driven,40,80,B,right,40\n"
			     "field,driven,40,80,C,c,20\n"
			     "small,ridden,20,40,A,a,10\n"
			     "small,ridden,20,40,C,c,10\n"
			     "field,driven,40,80,X,centre,40\n",
	[LEVELS] = LEVELS_HEAD "training,driven,20,14hh,trot\n"
			       "training,ridden,10,142.2,trot\n"
			       "advanced,driven,15,1.422m,trot\n",
	[GAITS] = GAITS_HEAD "walk,1.7,1.7,\"own, with a watch\"\ntrot,3.6,2.7,own\n",
	[RULES] = RULES_HEAD
	"combined,penalties,lowest,160,-1,2,2,score,5,10.5,eliminated,general median:3,invented\n"
	"plain,percent,highest,0,3,3,3,percent,2,,,,invented\n",
	[TURNOUTS] = TURNOUTS_HEAD "gig,horse,0,1.35,0.6,,\ngig,wheels,-0.95,2.55,1.4,1.38,0.9\n",
	[READINGS] = READINGS_HEAD "A,B,44.72,,\nB,CM,40.01,0.02,windy\nA,B,44.73,,\n",
	[READINGS_OF_POINTS] = READINGS_HEAD "p1,p2,10.5,,\n",
	[POINTS] = POINTS_HEAD "p1,0,0,yes\np2,-10.25,5893211.75,no\n",
	[TESTS] = TESTS_HEAD "T1,First test,field,training,combined,0.64\nT2,Second,,,,\n",
	[MOVEMENTS] = MOVEMENTS_HEAD "T1,1,A X,\"Enter, halt\",X halt,walk,1,movement,\n"
				     "T1,2,,Circle,,,1.5,movement,1\n"
				     "T1,general-1,,Paces,,,2,general,0.1\n"
				     "T2,1,A,Enter,,,1,movement,\n",
	[CLASSES] = CLASSES_HEAD "one,Class one,T1,training,main,combined,B* E,single\n"
				 "two,Class two,T2,,,,C,\n",
	[ENTRIES] = ENTRIES_HEAD "one,7,Åsa Öberg, Ferro ;Nelio&,13.2hh,gig,old gig,Bo,,pony,yes,\n"
				 "one,12,Per Ek,Sol,,,,,,,,\n"
				 "two,7,Åsa Öberg,Ferro,150cm,,,,Norrby,,no,Scratched\n",
	[MARKS] = MARKS_HEAD "one,7,B,1,6.5,late\n"
			     "one,7,E,2,7,\n"
			     "two,7,C,errors,1,\n"
			     "one,12,B,general-1,6.3,\n"
			     "one,12,B,total,173.25,\n",
	[FOOTINGS] = FOOTINGS_HEAD "flat,ridden,0.5,,0.2,,a book\nsteep,driven,,0.8,,1.25,\n",
	[WISHES] = WISHES_HEAD "driver,Per Ek,,1,09:00,,,\nclass,two,,,,,one,5\n",
	[PLANS] = PLANS_HEAD "one,main,1,09:00,600,10,,900,,,drawn\ntwo,,,,,,,,,,\n",
	[ARTICLES] = ARTICLES_HEAD "driven,groom dismounts,,5,10,eliminated,a book\n",
};
